#include "src/storage/sqlite_store.h"

#include "libs/sql/folder.h"
#include "libs/sql/sqlite.h"
#include "src/storage/access_rows.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/kept_store.h"
#include "src/storage/logbook_rows.h"
#include "src/storage/schema.h"
#include "src/storage/update_tables.h"

namespace hw::storage {
namespace {

std::filesystem::path database_in(const std::filesystem::path& folder) { return folder / "hourwright.db"; }

// The folder, but not those above it: they are more likely misspelt than meant.
Result<void> make_folder(const std::filesystem::path& folder) {
  std::error_code error;
  if (std::filesystem::is_directory(folder, error)) return {};
  const auto parent = std::filesystem::absolute(folder, error).parent_path();
  if (!std::filesystem::is_directory(parent, error)) {
    return refuse(ErrorCode::not_found, "{}: there is no folder {} to make it in", folder.string(), parent.string());
  }
  if (std::filesystem::exists(folder, error)) {
    return refuse(ErrorCode::bad_input, "{}: it is no folder", folder.string());
  }
  std::filesystem::create_directory(folder, error);
  if (!error) return sql::sync_folder(parent);
  return refuse(ErrorCode::disk_full, "{}: the folder cannot be made: {}", folder.string(), error.message());
}

// For reading, beside a server or without one.
Result<std::unique_ptr<sql::Connection>> open_to_look(const std::filesystem::path& folder) {
  HW_TRY(find_store(folder));
  HW_TAKE(db, sql::open_sqlite(database_in(folder), sql::Access::read, {.application_id = application_id}));
  HW_TAKE(version, db->schema_version());
  const int known = static_cast<int>(migrations().size());
  if (version == known) return std::move(db);
  return refuse(ErrorCode::unsupported, "{}: its tables are of version {}, this program's are of version {}",
                folder.string(), version, known);
}

}  // namespace

Result<void> find_store(const std::filesystem::path& folder) {
  std::error_code error;
  if (std::filesystem::is_regular_file(database_in(folder), error)) return {};
  return refuse(ErrorCode::not_found,
                "{}: there is no shop here; hourwright found --data {} --shop SHOP.toml makes one", folder.string(),
                folder.string());
}

Result<std::unique_ptr<service::Store>> open_store(const std::filesystem::path& folder) {
  if (auto made = make_folder(folder); !made) return refuse(made.error());
  if (auto local = sql::check_local_file_system(folder); !local) return refuse(local.error());
  auto lock = sql::lock_folder(folder);
  if (!lock) return refuse(lock.error());
  const auto file = database_in(folder);
  const sql::SqliteOptions options{.application_id = application_id};
  auto writer = sql::open_sqlite(file, sql::Access::write, options);
  if (!writer) return refuse(writer.error());
  HW_TRY(update_tables(folder, **writer, migrations()));
  const auto open_reader = [file, options] { return sql::open_sqlite(file, sql::Access::read, options); };
  return std::make_unique<KeptStore>(folder, std::move(*lock), std::move(*writer), open_reader);
}

Result<service::ShopWithMachines> look_into(const std::filesystem::path& folder) {
  HW_TAKE(db, open_to_look(folder));
  HW_TAKE(snapshot, sql::Transaction::begin(*db));
  HW_TAKE(shop, read_shop(*db));
  if (!shop) return refuse(ErrorCode::not_found, "{}: no shop has been founded here", folder.string());
  HW_TAKE(machines, read_machines(*db));
  HW_TRY(snapshot.commit());
  return service::ShopWithMachines{*std::move(shop), std::move(machines)};
}

Result<std::vector<service::Account>> look_at_accounts(const std::filesystem::path& folder) {
  HW_TAKE(db, open_to_look(folder));
  HW_TAKE(rows, read_access(*db));
  return std::move(rows.accounts);
}

Result<record::Verdict> verify_logbook(const std::filesystem::path& folder, const std::optional<std::string>& noted) {
  HW_TRY(find_store(folder));
  HW_TAKE(db, sql::open_sqlite(database_in(folder), sql::Access::read, {.application_id = application_id}));
  HW_TRY(check_logbook_tables(*db));
  HW_TAKE(snapshot, sql::Transaction::begin(*db));  // rows and head of one moment, however much is written meanwhile
  HW_TAKE(verdict, read_verdict(*db, noted));
  HW_TRY(snapshot.commit());
  return std::move(verdict);
}

}  // namespace hw::storage
