#include "libs/sql/sqlite.h"

#include <system_error>

#include <sqlite3.h>

#include "libs/sql/sqlite_connection.h"

namespace hw::sql {
namespace {

Result<std::unique_ptr<sqlite3, CloseDatabase>> open_handle(const std::filesystem::path& file, Access access) {
  const int how = access == Access::write ? SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE : SQLITE_OPEN_READONLY;
  sqlite3* raw = nullptr;
  const int status = sqlite3_open_v2(file.c_str(), &raw, how | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE, nullptr);
  std::unique_ptr<sqlite3, CloseDatabase> database(raw);
  if (status == SQLITE_OK) return database;
  std::error_code ignored;
  const bool is_there = std::filesystem::exists(access == Access::write ? file.parent_path() : file, ignored);
  return refuse(is_there ? ErrorCode::disk_full : ErrorCode::not_found, "{}: {}", file.string(),
                is_there ? "cannot be opened; is it a file that this user may read and write?" : "is not there");
}

// What holds for the handle itself, before the file is first looked at.
void set_up_handle(sqlite3* database, Access access, const SqliteOptions& options) {
  sqlite3_busy_timeout(database, static_cast<int>(options.busy_timeout.count()));
  for (const auto& [setting, on] : {std::pair{SQLITE_DBCONFIG_ENABLE_FKEY, 1},
                                    {SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
                                    {SQLITE_DBCONFIG_DEFENSIVE, 1},
                                    {SQLITE_DBCONFIG_DQS_DML, 0},
                                    {SQLITE_DBCONFIG_DQS_DDL, 0},
                                    {SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, access == Access::write ? 0 : 1}}) {
    const int status = sqlite3_db_config(database, setting, on, nullptr);
    HW_ASSERT(status == SQLITE_OK, "SQLite knows the setting");
  }
}

// The four letters of an id, dots for what is no letter: "HWRT".
std::string letters_of(std::int64_t id) {
  std::string letters;
  for (int shift = 24; shift >= 0; shift -= 8) {
    const char letter = static_cast<char>(id >> shift & 0xff);
    letters += letter > 0x20 && letter < 0x7f ? letter : '.';
  }
  return letters;
}

// Ours, or new and now ours.
Result<void> claim(Connection& connection, const std::string& file, Access access, std::int32_t application_id) {
  const auto id = connection.query_value<std::int64_t>("pragma application_id");
  if (!id) return refuse(id.error());
  if (**id == application_id) return {};
  const auto objects = connection.query_value<std::int64_t>("select count(*) from sqlite_schema");
  if (!objects) return refuse(objects.error());
  const bool is_new = **id == 0 && **objects == 0;
  if (is_new && access == Access::write) {
    return connection.run_script(fmt::format("pragma application_id = {}", application_id));
  }
  return refuse(ErrorCode::bad_input, "{}: {}", file,
                is_new ? std::string("is empty")
                       : fmt::format("belongs to another program (its mark is \"{}\", not \"{}\")", letters_of(**id),
                                     letters_of(application_id)));
}

Result<void> set_up_file(Connection& connection, const std::string& file, Access access, const SqliteOptions& options) {
  if (access == Access::read) return connection.run_script("pragma wal_autocheckpoint = 0");
  const auto mode = connection.query_value<std::string>("pragma journal_mode = wal");
  if (!mode) return refuse(mode.error());
  if (*mode != "wal") return refuse(ErrorCode::unsupported, "{}: no write-ahead log is possible there", file);
  const std::string pages =
      options.pages_max == 0 ? "" : fmt::format("; pragma max_page_count = {}", options.pages_max);
  return connection.run_script("pragma synchronous = full" + pages);
}

}  // namespace

Result<std::unique_ptr<Connection>> open_sqlite(const std::filesystem::path& file, Access access,
                                                const SqliteOptions& options) {
  HW_ASSERT(options.application_id != 0, "an application has an id");
  const std::string name = file.string();
  auto handle = open_handle(file, access);
  if (!handle) return refuse(handle.error());
  set_up_handle(handle->get(), access, options);
  auto connection = std::make_unique<SqliteConnection>(std::move(*handle), name, access);
  try {
    if (auto claimed = claim(*connection, name, access, options.application_id); !claimed) {
      return refuse(claimed.error());
    }
    if (auto set = set_up_file(*connection, name, access, options); !set) return refuse(set.error());
    if (access == Access::write) connection->write_back_by_itself();
  } catch (const StorageFailed& failed) {
    return refuse(failed.error());
  }
  return connection;
}

Result<std::unique_ptr<Connection>> open_sqlite_in_memory() {
  const std::string name = ":memory:";
  auto handle = open_handle(name, Access::write);
  if (!handle) return refuse(handle.error());
  set_up_handle(handle->get(), Access::write, {});
  return std::make_unique<SqliteConnection>(std::move(*handle), name, Access::write);
}

}  // namespace hw::sql
