#include "src/storage/open_store.h"

#include <algorithm>

#include "libs/sql/folder.h"
#include "src/storage/access_rows.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/database_place.h"
#include "src/storage/kept_store.h"
#include "src/storage/logbook_rows.h"
#include "src/storage/schema.h"
#include "src/storage/shared_database.h"
#include "src/storage/update_tables.h"

namespace hw::storage {
namespace {

// For reading, beside a server or without one.
Result<std::unique_ptr<sql::Connection>> open_folder_to_read(const std::filesystem::path& folder) {
  HW_TRY(find_store(folder));
  HW_TAKE(place, place_of(folder));
  return open_database(place, sql::Access::read);
}

// The same, where the tables are this program's.
Result<std::unique_ptr<sql::Connection>> open_to_look(const std::filesystem::path& folder) {
  HW_TAKE(db, open_folder_to_read(folder));
  HW_TRY(check_tables_are_ours(*db, folder.string()));
  return std::move(db);
}

Result<std::unique_ptr<service::Store>> open_on_server(const DatabasePlace& place,
                                                       std::shared_ptr<sql::FolderLock> lock, const StoreTerms& terms) {
  HW_TAKE(database, SharedDatabase::open(place, std::move(lock), terms));
  HW_TAKE(db, open_database(place, sql::Access::read));
  HW_TAKE(plants, plants_of(*db));
  const std::string plant = db->tenant();
  if (std::find(plants.begin(), plants.end(), plant) == plants.end()) return database->store_of_new(plant);
  HW_TAKE(store, database->take(plant));
  if (store) return std::move(store);
  return refuse(ErrorCode::in_use, "{}: its database is in use: another server holds the plant {}; stop that first",
                place.folder.string(), plant);
}

}  // namespace

Result<void> find_store(const std::filesystem::path& folder) {
  HW_TAKE(place, place_of(folder));
  std::error_code error;
  if (place.is_on_server() || std::filesystem::is_regular_file(place.file(), error)) return {};
  return refuse(ErrorCode::not_found,
                "{}: there is no shop here; hourwright found --data {} --shop SHOP.toml makes one", folder.string(),
                folder.string());
}

Result<KeptAt> keep_in_file(const DatabasePlace& place, std::shared_ptr<sql::FolderLock> lock,
                            const std::string& new_plant) {
  const auto open = [place](sql::Access access) { return [=] { return open_database(place, access); }; };
  HW_TAKE(writer, open(sql::Access::write)());
  HW_TRY(update_tables(place, *writer, migrations()));
  HW_TAKE(plants, plants_of(*writer));
  if (plants.empty() && !new_plant.empty()) HW_TRY(writer->act_for(new_plant));
  using Failed = ConnectionPool::Failed;
  KeptAt at{writer->tenant(), place.folder, std::move(lock),
            std::make_shared<ConnectionPool>(open(sql::Access::write), Failed::kept),
            std::make_shared<ConnectionPool>(open(sql::Access::read), Failed::replaced)};
  at.writers->put(std::move(writer));
  return at;
}

Result<std::unique_ptr<service::Store>> open_store(const std::filesystem::path& folder, const StoreTerms& terms) {
  HW_TRY(make_folder(folder));
  HW_TRY(sql::check_local_file_system(folder));
  HW_TAKE(lock, sql::lock_folder(folder));
  HW_TAKE(place, place_of(folder));
  auto kept_lock = std::make_shared<sql::FolderLock>(std::move(lock));
  if (place.is_on_server()) return open_on_server(place, std::move(kept_lock), terms);
  HW_TAKE(at, keep_in_file(place, std::move(kept_lock), terms.new_plant));
  return std::make_unique<KeptStore>(std::move(at));
}

Result<OpenEdge> open_edge(const std::filesystem::path& folder) {
  HW_TRY(find_store(folder));
  HW_TRY(sql::check_local_file_system(folder));
  HW_TAKE(lock, sql::lock_folder(folder));
  HW_TAKE(place, place_of(folder));
  if (place.is_on_server()) {
    return refuse(ErrorCode::unsupported, "{}: its shop lies in a database on a server, and an edge keeps its own file",
                  folder.string());
  }
  HW_TAKE(at, keep_in_file(place, std::make_shared<sql::FolderLock>(std::move(lock)), ""));
  auto store = std::make_unique<KeptStore>(std::move(at));
  HW_TAKE(shipments, EdgeShipments::begin(*store, folder));
  return OpenEdge{std::move(store), std::move(shipments)};
}

Result<std::unique_ptr<service::Plants>> open_plants(const std::filesystem::path& folder, const StoreTerms& terms) {
  HW_TAKE(place, place_of(folder));
  if (!place.is_on_server()) {
    return refuse(ErrorCode::wrong_usage, "--group: {} names no database that could hold several plants: --database",
                  folder.string());
  }
  HW_TRY(sql::check_local_file_system(folder));
  HW_TAKE(lock, sql::lock_folder(folder));
  HW_TAKE(database, SharedDatabase::open(place, std::make_shared<sql::FolderLock>(std::move(lock)), terms));
  return std::unique_ptr<service::Plants>{std::move(database)};
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
  HW_TAKE(db, open_folder_to_read(folder));
  HW_TRY(check_logbook_tables(*db));
  HW_TAKE(snapshot, sql::Transaction::begin(*db));  // rows and head of one moment, however much is written meanwhile
  HW_TAKE(verdict, read_verdict(*db, noted));
  HW_TRY(snapshot.commit());
  return std::move(verdict);
}

}  // namespace hw::storage
