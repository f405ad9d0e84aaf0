#include "src/storage/database_place.h"

#include "libs/sql/folder.h"
#include "libs/sql/postgres.h"
#include "libs/sql/postgres_schema.h"
#include "libs/sql/sqlite.h"
#include "libs/values/whole_file.h"
#include "src/storage/schema.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;

fs::path address_file(const fs::path& folder) { return folder / "database"; }

std::string without_line_end(std::string text) {
  while (!text.empty() && (text.back() == '\n' || text.back() == '\r')) text.pop_back();
  return text;
}

// One process at a time writes, as with a file; the server lets go of it when its connection ends.
Result<std::unique_ptr<sql::Connection>> open_on_server(const DatabasePlace& place, sql::Access access) {
  HW_TAKE(db, sql::open_postgres(place.address, access, {.writers = application_id}));
  if (access == sql::Access::read) return std::move(db);
  HW_TAKE(held, db->query_value<bool>("select pg_try_advisory_lock($1)", std::int64_t{application_id} + 1));
  if (held.value_or(false)) return std::move(db);
  return refuse(ErrorCode::in_use, "{}: its database is in use by another server; stop that first",
                place.folder.string());
}

}  // namespace

Result<DatabasePlace> place_of(const fs::path& folder) {
  DatabasePlace place{folder};
  std::error_code error;
  if (!fs::exists(address_file(folder), error)) return place;
  HW_TAKE(text, read_whole_file(address_file(folder)));
  place.address = without_line_end(std::move(text));
  if (sql::is_postgres_address(place.address)) return place;
  return refuse(ErrorCode::corrupt, "{}: holds no address of a database; postgresql://HOST/DATABASE is one",
                address_file(folder).string());
}

Result<void> place_on_server(const fs::path& folder, const std::string& address) {
  if (!sql::is_postgres_address(address)) {
    return refuse(ErrorCode::bad_input, "--database: no address of a database; postgresql://HOST/DATABASE is one");
  }
  HW_TRY(make_folder(folder));
  HW_TAKE(place, place_of(folder));
  if (place.address == address) return {};
  std::error_code error;
  if (place.is_on_server() || fs::exists(place.file(), error)) {
    return refuse(ErrorCode::conflict, "{}: its shop lies in {} already", folder.string(),
                  place.is_on_server() ? "another database" : "hourwright.db");
  }
  return write_whole_file(address_file(folder), address + "\n", ReadableBy::owner);
}

Result<void> make_folder(const fs::path& folder) {
  std::error_code error;
  if (fs::is_directory(folder, error)) return {};
  const auto parent = fs::absolute(folder, error).parent_path();
  if (!fs::is_directory(parent, error)) {
    return refuse(ErrorCode::not_found, "{}: there is no folder {} to make it in", folder.string(), parent.string());
  }
  if (fs::exists(folder, error)) return refuse(ErrorCode::bad_input, "{}: it is no folder", folder.string());
  fs::create_directory(folder, error);
  if (!error) return sql::sync_folder(parent);
  return refuse(ErrorCode::disk_full, "{}: the folder cannot be made: {}", folder.string(), error.message());
}

Result<std::unique_ptr<sql::Connection>> open_database(const DatabasePlace& place, sql::Access access) {
  if (place.is_on_server()) return open_on_server(place, access);
  return sql::open_sqlite(place.file(), access, {.application_id = application_id});
}

Result<void> apply_steps(sql::Connection& db, const DatabasePlace& place, std::span<const sql::Migration> steps) {
  std::vector<sql::Migration> in_its_words(steps.begin(), steps.end());
  if (place.is_on_server()) {
    for (sql::Migration& step : in_its_words) step.sql = sql::in_postgres(step.sql);
  }
  HW_TRY(sql::apply_migrations(db, in_its_words));
  return {};
}

}  // namespace hw::storage
