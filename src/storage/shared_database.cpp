#include "src/storage/shared_database.h"

#include <fmt/format.h>

#include "libs/sql/postgres.h"
#include "libs/values/secret.h"
#include "libs/values/whole_file.h"
#include "src/storage/schema.h"
#include "src/storage/update_tables.h"

namespace hw::storage {
namespace {

constexpr std::size_t name_bytes = 9;
constexpr std::size_t secret_size = 32;

service::PlantHolder holder_of(const ServerRun& run) { return {run.server, run.address, run.run}; }

// "qk3V9zB1m0Xw": the same as long as the folder is there.
Result<std::string> server_of(const std::filesystem::path& folder) {
  const auto file = folder / "server";
  std::error_code error;
  if (std::filesystem::exists(file, error)) {
    HW_TAKE(text, read_whole_file(file));
    return text.substr(0, text.find('\n'));
  }
  std::string server = print_base64url(secret_bytes(name_bytes));
  HW_TRY(write_whole_file(file, server + "\n", ReadableBy::owner));
  return server;
}

// Whoever makes the tables or brings them up to date is alone, until the connection ends.
Result<std::unique_ptr<sql::Connection>> open_alone(const DatabasePlace& place) {
  HW_TAKE(db, sql::open_postgres(place.address, sql::Access::write, {.writers = application_id}));
  HW_TRY(db->run_script(fmt::format("select pg_advisory_lock({})", std::int64_t{application_id} + 1)));
  return std::move(db);
}

Result<void> update_alone(const DatabasePlace& place) {
  HW_TAKE(db, open_alone(place));
  return update_tables(place, *db, migrations());
}

OpenConnection open_with(const DatabasePlace& place, sql::Access access) {
  return [place, access] { return sql::open_postgres(place.address, access, {.writers = application_id}); };
}

}  // namespace

Result<std::unique_ptr<sql::Connection>> open_with_tables(const DatabasePlace& place) {
  {
    HW_TAKE(db, open_alone(place));
    HW_TAKE(version, db->schema_version());
    if (version == 0) HW_TRY(apply_steps(*db, place, migrations()));
    HW_TRY(check_tables_are_ours(*db, "the database"));
  }
  return open_database(place, sql::Access::write);
}

Result<std::unique_ptr<SharedDatabase>> SharedDatabase::open(const DatabasePlace& place,
                                                             std::shared_ptr<sql::FolderLock> lock,
                                                             const StoreTerms& terms) {
  HW_TRY(update_alone(place));
  HW_TAKE(server, server_of(place.folder));
  const ServerRun run{server, print_base64url(secret_bytes(secret_size)), ""};
  HW_TAKE(hold, ServerHold::begin(place, run, {terms.sign_lasts, terms.report}));
  const auto pool = [&](sql::Access access) {
    return std::make_shared<ConnectionPool>(open_with(place, access), ConnectionPool::Failed::replaced);
  };
  return std::unique_ptr<SharedDatabase>{new SharedDatabase(
      KeptAt{"", place.folder, std::move(lock), pool(sql::Access::write), pool(sql::Access::read), std::move(hold)})};
}

Result<std::vector<service::PlantSeen>> SharedDatabase::all() {
  HW_TAKE(places, at_.hold->places());
  std::vector<service::PlantSeen> plants;
  for (PlantPlace& place : places) {
    service::PlantSeen seen{std::move(place.plant), std::move(place.title), {}};
    if (place.held_by) seen.held_by = holder_of(*place.held_by);
    plants.push_back(std::move(seen));
  }
  return plants;
}

service::PlantHolder SharedDatabase::own() const { return holder_of(at_.hold->run()); }

Result<int> SharedDatabase::servers() {
  HW_TAKE(servers, at_.hold->servers());
  return static_cast<int>(servers.size());
}

Result<std::unique_ptr<service::Store>> SharedDatabase::take(const std::string& plant) {
  HW_TAKE(lease, at_.hold->take(plant));
  if (!lease) return std::unique_ptr<service::Store>{};
  KeptAt at = at_;
  at.plant = plant;
  return std::make_unique<KeptStore>(std::move(at), *lease);
}

std::unique_ptr<service::Store> SharedDatabase::store_of_new(const std::string& plant) {
  KeptAt at = at_;
  at.plant = plant;
  return std::make_unique<KeptStore>(std::move(at));
}

}  // namespace hw::storage
