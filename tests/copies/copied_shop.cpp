#include "tests/copies/copied_shop.h"

#include <fstream>

#include <fmt/ranges.h>

#include "libs/values/sha256.h"
#include "src/storage/database_place.h"
#include "src/storage/schema.h"

namespace hw::shop {
namespace {

namespace fs = std::filesystem;

std::unique_ptr<sql::Connection> opened(const fs::path& data, sql::Access access) {
  return must(storage::open_database({data}, access));
}

std::string marked(std::string_view text) { return fmt::format("{} {}", text, secret_mark); }

void keep_finding(Scene& scene) {
  service::FindingEdit edit;
  edit.id = id_of(20);
  edit.by = secret_mark;
  edit.what = marked("Oil under the machine");
  must(make_finding(scene.shop(), "mill1", edit, scene.now));
}

void keep_photo_and_device(Scene& scene) {
  const std::string bytes = marked("no picture at all:");
  const auto writing = must(scene.store().begin());
  must(writing->add_photo({id_of(30), print_hex(sha256(bytes)), bytes}));
  service::Device device;
  device.id = id_of(31);
  device.title = marked("Phone of");
  device.secret_hash = print_hex(sha256(marked("secret of")));
  device.enrolled_by = secret_mark;
  device.enrolled_at = scene.now;
  must(writing->add_device(device));
  must(writing->commit());
}

}  // namespace

void fill(Scene& scene) {
  for (int day = 0; day < 5; ++day) {
    scene.play("mill1 |####..SS??..##......oooo|");
    must(scene.keep());
    scene.play("mill2 |.#SS|");
    must(scene.done("filter", 2 * day + 1, std::string(secret_mark)));
  }
  must(scene.undo(9, 10, std::string(secret_mark)));
  must(scene.read_hours(25.5, 11));
  keep_finding(scene);
  keep_photo_and_device(scene);
  must(scene.keep());
  fs::create_directory(scene.folder() / "tls");
  std::ofstream(scene.folder() / "tls" / "server.pem") << marked("PRIVATE KEY of");
  std::ofstream(scene.folder() / "tls" / "notes") << "no part of a copy";
}

std::vector<std::string> columns_in(const fs::path& data) {
  const auto db = opened(data, sql::Access::read);
  auto rows = db->query(
                    "select t.name, group_concat(c.name, ', ') from sqlite_schema t, pragma_table_info(t.name) c "
                    "where t.type = 'table' and t.name not like 'sqlite%' group by t.name order by t.name")
                  .value();
  std::vector<std::string> columns;
  while (rows.next()) columns.push_back(fmt::format("{}({})", rows.get<std::string>(0), rows.get<std::string>(1)));
  return columns;
}

std::string digest_of(const fs::path& data, const std::vector<std::string>& columns) {
  const auto db = opened(data, sql::Access::read);
  Sha256Stream digest;
  for (const std::string& table : columns) {
    const auto bracket = table.find('(');
    std::string cells = "quote(" + table.substr(bracket + 1);
    cells.pop_back();
    for (std::size_t at = 0; (at = cells.find(", ", at)) != std::string::npos; at += 12) {
      cells.replace(at, 2, ") || ' ' || quote(");
    }
    auto rows = db->query(fmt::format("select {}) from {} order by 1", cells, table.substr(0, bracket))).value();
    digest.add(table);
    while (rows.next()) digest.add(rows.get<std::string_view>(0));
  }
  return print_hex(digest.end());
}

std::string whole_digest(const fs::path& data) { return digest_of(data, columns_in(data)); }

void meddle(const fs::path& data, const std::string& script) {
  const auto db = opened(data, sql::Access::write);
  must(db->run_script(script));
}

}  // namespace hw::shop
