#include "tests/power/kept_state.h"

#include "libs/power/mounted_disk.h"
#include "libs/sql/sqlite.h"
#include "libs/sql/test_folder.h"
#include "src/service/open_shop.h"
#include "src/storage/open_store.h"
#include "src/storage/schema.h"

namespace hw::power {
namespace {

constexpr const char* database = "hourwright.db";

Result<std::unique_ptr<sql::Connection>> open_reader(const std::filesystem::path& folder) {
  return sql::open_sqlite(folder / database, sql::Access::read, {.application_id = storage::application_id});
}

std::vector<std::string> texts_of(sql::Connection& db, const std::string& sql) {
  std::vector<std::string> texts;
  auto rows = db.query(sql);
  HW_ASSERT(rows, "the query is answered");
  while (rows->next()) texts.push_back(rows->get<std::string>(0));
  return texts;
}

std::string checked(sql::Connection& db) {
  const auto says = texts_of(db, "pragma integrity_check");
  return says == std::vector<std::string>{"ok"} ? "" : "integrity_check: " + says.front();
}

std::string verified(service::Store& store) {
  const auto verdict = store.verdict();
  if (!verdict) return verdict.error().message;
  if (!verdict->breaks.empty()) return verdict->breaks.front().says;
  const auto opened = service::OpenShop::open(store);
  return opened ? "" : opened.error().message;
}

}  // namespace

std::string state_of(sql::Connection& db) {
  std::string all = fmt::format("{}", *db.schema_version());
  for (const auto& table : texts_of(db, "select name from sqlite_schema where type = 'table' order by name")) {
    std::string row;
    for (const auto& column : texts_of(db, fmt::format("select name from pragma_table_info('{}')", table))) {
      row += fmt::format("{}quote(\"{}\")", row.empty() ? "" : " || ',' || ", column);
    }
    all += "\n" + table;
    for (const auto& text : texts_of(db, fmt::format("select {} from \"{}\"", row, table))) all += "\n" + text;
  }
  return fmt::format("{:016x}", std::hash<std::string>()(all));
}

std::string state_beside() {
  const auto db = open_reader("/");
  HW_ASSERT(db, db.error().message.c_str());
  return state_of(**db);
}

Kept Reopening::look(const Image& image) {
  static const sql::TestFolder folder;  // its files are on the mounted disk, but for the lock
  Disk disk(image);
  const MountedDisk mounted(disk);
  if (auto store = storage::open_store(folder.path()); !store) return {"", store.error().message};
  const std::size_t key = std::hash<std::string>()(disk.open(database, true)->bytes);
  auto known = known_.find(key);
  if (known == known_.end()) known = known_.emplace(key, examine(folder.path())).first;
  return known->second;
}

Kept Reopening::examine(const std::filesystem::path& folder) const {
  try {
    const auto db = open_reader(folder);
    if (!db) return {"", db.error().message};
    Kept kept{"", checked(**db)};
    if (!kept.trouble.empty()) return kept;
    kept.state = state_of(**db);
    const auto store = storage::open_store(folder);
    if (!store) return {"", store.error().message};
    const auto founded = (*store)->shop();
    if (founded && *founded) kept.trouble = verified(**store);
    return kept;
  } catch (const sql::StorageFailed& failed) {
    return {"", failed.what()};
  }
}

}  // namespace hw::power
