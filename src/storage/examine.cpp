#include "src/storage/examine.h"

#include <chrono>
#include <functional>

#include "libs/sql/folder.h"
#include "libs/sql/storage_failed.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/copied_database.h"
#include "src/storage/database_place.h"
#include "src/storage/logbook_rows.h"
#include "src/storage/open_store.h"
#include "src/storage/schema.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;
using service::Check;
using service::Examined;

constexpr std::uint64_t little_room_bytes = 1'000'000'000;
constexpr std::uint64_t no_room_bytes = 50'000'000;

Check pass(std::string name, std::string detail) { return {std::move(name), "pass", std::move(detail)}; }
Check warn(std::string name, std::string detail) { return {std::move(name), "warn", std::move(detail)}; }
Check fail(std::string name, std::string detail) { return {std::move(name), "fail", std::move(detail)}; }

Check judged(std::string name, const Result<void>& result, std::string well) {
  return result ? pass(std::move(name), std::move(well)) : fail(std::move(name), result.error().message);
}

// On a server the address may hold a password.
Check rights_check(const fs::path& data) {
  std::error_code error;
  const fs::path address = data / "database";
  const bool is_on_server = fs::exists(address, error);
  const auto may = fs::status(is_on_server ? address : data / database_file, error).permissions();
  const auto tls = fs::status(data / "tls" / "server.pem", error);
  if (fs::exists(tls) && (tls.permissions() & (fs::perms::group_all | fs::perms::others_all)) != fs::perms::none) {
    return fail("rights",
                "others may read the keys in tls: chmod 600 tls/*.pem, and make new ones (hourwright tls init "
                "--new-authority) where somebody may have");
  }
  if ((may & (fs::perms::group_write | fs::perms::others_write)) != fs::perms::none) {
    return warn("rights", is_on_server ? "others than the owner may write the file database: chmod 600 database"
                                       : "others than the owner may write hourwright.db: chmod 600 hourwright.db");
  }
  return pass("rights", "only the owner may write");
}

Check room_check(const fs::path& data) {
  std::error_code error;
  const auto space = fs::space(data, error);
  if (error) return fail("room", error.message());
  const std::string free = fmt::format("{:.1f} GB are free", static_cast<double>(space.available) / 1e9);
  const auto size = fs::file_size(data / database_file, error);
  const std::uint64_t bytes = error ? 0 : size;  // on a server there is none
  if (space.available < no_room_bytes) return fail("room", free + ": make room; nothing can be entered soon");
  if (space.available < std::max<std::uint64_t>(little_room_bytes, 3 * bytes)) {
    return warn("room", free + ": make room; a new version needs three times the database for its copy and update");
  }
  return pass("room", free);
}

Check schema_check(int schema) {
  const std::string says =
      fmt::format("tables of version {}, this program's are of version {}", schema, known_schema());
  if (schema == known_schema()) return pass("tables", says);
  if (schema > known_schema()) return fail("tables", says + ": a newer program wrote them; use that one");
  return warn("tables", says + ": they are brought up to date, behind a copy, when the shop is served next");
}

Check logbook_check(const fs::path& data) {
  const auto verdict = verify_logbook(data, {});
  if (!verdict) return fail("logbook", verdict.error().message);
  if (!verdict->breaks.empty()) {
    return fail("logbook", fmt::format("{} ({} breaks in all): see hourwright logbook verify, and hourwright rebuild "
                                       "where only what follows from entries differs",
                                       verdict->breaks.front().says, verdict->breaks.size()));
  }
  const std::string says = fmt::format("{} entries, unbroken, and what follows from them agrees", verdict->entries);
  if (verdict->photos_awaited.empty()) return pass("logbook", says);
  return warn("logbook", fmt::format("{}; {} photos have not come yet: whose phone are they on?", says,
                                     verdict->photos_awaited.size()));
}

// Entries carry the clock's time: one ahead of now was made by another clock, and so was a file.
Result<Check> clock_check(sql::Connection& db, const fs::path& data, Instant now) {
  HW_TAKE(last_ms,
          db.query_value<std::int64_t>("select coalesce(max(at_ms), 0) from entry where plant = $1", db.tenant()));
  std::error_code error;
  const auto written = fs::last_write_time(data / database_file, error).time_since_epoch();
  const auto system = std::chrono::file_clock::to_sys(std::chrono::file_clock::time_point(written)).time_since_epoch();
  const Instant file_at{std::chrono::duration_cast<std::chrono::nanoseconds>(system).count()};
  const Instant last = std::max(Instant::from_millis(last_ms.value_or(0)), file_at);
  const std::string says = fmt::format("the clock says {}, the newest entry or file {}", print(now), print(last));
  if (last - now > Duration::seconds(60)) {
    return fail("clock", says + ": the clock is behind, or was ahead; set it (timedatectl) before anything is entered");
  }
  return pass("clock", says);
}

// The tables as SQLite has them, whoever made them; a server's are for its own tools.
Result<std::string> schema_in_file(sql::Connection& db) {
  HW_TAKE(rows, db.query("select sql from sqlite_schema where sql is not null order by name"));
  std::string text;
  while (rows.next()) text += rows.get<std::string>(0) + ";\n";
  return text;
}

Result<void> read_sizes(sql::Connection& db, Examined& examined) {
  for (const std::string& table : table_names()) {
    HW_TAKE(columns, db.columns_of(table));
    if (columns.empty()) continue;  // of a later step
    HW_TAKE(count, db.query_value<std::int64_t>(fmt::format("select count(*) from {}", table)));
    examined.tables.push_back({table, count.value_or(0)});
  }
  return {};
}

Result<void> look_at_database(const fs::path& data, Instant now, Examined& examined) {
  HW_TAKE(place, place_of(data));
  HW_TAKE(db, open_database(place, sql::Access::read));
  HW_TAKE(schema, db->schema_version());
  examined.schema = schema;
  examined.checks.push_back(schema_check(schema));
  if (!place.is_on_server()) {
    HW_TAKE(text, schema_in_file(*db));
    examined.schema_text = std::move(text);
  }
  HW_TRY(read_sizes(*db, examined));
  HW_TAKE(clock, clock_check(*db, data, now));
  examined.checks.push_back(clock);
  if (schema != known_schema()) return {};
  examined.checks.push_back(logbook_check(data));
  HW_TAKE(shop, look_into(data));
  examined.shop = std::move(shop);
  return {};
}

Result<void> answers(const DatabasePlace& place) {
  const auto db = open_database(place, sql::Access::read);
  return db ? Result<void>{} : refuse(db.error());
}

void add_database_checks(const fs::path& data, Instant now, Examined& examined) {
  const auto place = place_of(data);
  const bool is_on_server = place && place->is_on_server();
  const auto whole = !place         ? Result<void>{refuse(place.error())}
                     : is_on_server ? answers(*place)
                                    : check_integrity(place->file());
  examined.checks.push_back(judged("database", whole,
                                   is_on_server ? "the server answers; its own tools look over its pages"
                                                : "its pages, indexes and references hold together"));
  if (!whole && is_on_server) return;
  if (!whole) {
    examined.checks.back().detail += "; stop the server, keep the folder as it is, and restore the last good copy";
    return;
  }
  try {
    if (auto looked = look_at_database(data, now, examined); !looked) {
      examined.checks.push_back(fail("content", looked.error().message));
    }
  } catch (const sql::StorageFailed& failed) {
    examined.checks.push_back(fail("content", failed.what()));
  }
}

}  // namespace

Examined examine(const fs::path& data, Instant now) {
  Examined examined;
  const auto found = find_store(data);
  examined.checks.push_back(judged("folder", found, "there is a shop in it"));
  if (!found) return examined;
  examined.checks.push_back(judged("disk", sql::check_local_file_system(data), "it is a disk of this computer"));
  examined.checks.push_back(rights_check(data));
  examined.checks.push_back(room_check(data));
  add_database_checks(data, now, examined);
  return examined;
}

}  // namespace hw::storage
