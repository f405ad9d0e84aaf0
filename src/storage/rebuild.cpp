#include "src/storage/rebuild.h"

#include <fmt/ranges.h>

#include "libs/sql/folder.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/database_place.h"
#include "src/storage/derived_check.h"
#include "src/storage/derived_rows.h"
#include "src/storage/entry_reading.h"
#include "src/storage/logbook_rows.h"
#include "src/storage/open_store.h"
#include "src/storage/recounting.h"
#include "src/storage/schema.h"
#include "src/storage/shared_database.h"

namespace hw::storage {
namespace {

// What keeps every server from writing for the plant, as long as it is there.
struct Kept {
  std::shared_ptr<sql::FolderLock> lock;
  std::unique_ptr<service::Store> store = {};  // of a database on a server
};

Result<Kept> keep_servers_out(const DatabasePlace& place, const std::string& plant) {
  HW_TAKE(lock, sql::lock_folder(place.folder));
  Kept kept{std::make_shared<sql::FolderLock>(std::move(lock))};
  if (!place.is_on_server()) return kept;
  HW_TAKE(database, SharedDatabase::open(place, kept.lock, {}));
  HW_TAKE(store, database->take(plant));
  if (!store)
    return refuse(ErrorCode::in_use, "{}: a server holds the plant {}; stop that first", place.folder.string(), plant);
  kept.store = std::move(store);
  return kept;
}

// Entries that were altered say nothing of what has to follow from them.
Result<std::int64_t> unbroken_entries(sql::Connection& db) {
  HW_TAKE(chain, read_chain(db, {}));
  if (chain.breaks.empty()) return chain.entries;
  return refuse(ErrorCode::corrupt, "the logbook itself is not as it was written ({}); nothing was made again",
                chain.breaks.front().says);
}

Result<void> write_derived(sql::Connection& db) {
  for (const DerivedTable& table : derived_tables()) {
    HW_TRY(db.execute(fmt::format("delete from {} where plant = $1", table.name), db.tenant()));
  }
  HW_TAKE(rows, db.query(fmt::format("select {} from entry e where e.plant = $1 order by e.ordinal", entry_columns()),
                         db.tenant()));
  while (rows.next()) {
    HW_TAKE(entry, entry_alone(rows));
    HW_TRY(derive_rows(db, entry));
  }
  return {};
}

// Writes them, and looks whether they have become what was made beside them.
Result<void> put_in_place(sql::Connection& db, sql::Connection& made) {
  HW_TRY(write_derived(db));
  HW_TAKE(left, derived_differences(db, made));
  if (left.empty()) return {};
  return refuse(ErrorCode::corrupt, "made again, {}; nothing was changed", left.front());
}

Result<service::RebuiltPart> rebuild_derived(sql::Connection& db) {
  service::RebuiltPart part;
  part.name = "entries";
  HW_TAKE(entries, unbroken_entries(db));
  part.read = entries;
  HW_TAKE(made, derive_all(db));
  HW_TAKE(differences, derived_differences(db, *made));
  HW_TAKE(before, derived_digest(db));
  if (!differences.empty()) HW_TRY(put_in_place(db, *made));
  HW_TAKE(after, derived_digest(db));
  part.before = before;
  part.after = after;
  part.differences = std::move(differences);
  return part;
}

}  // namespace

Result<service::RebuildReport> rebuild(const std::filesystem::path& data, Instant now) {
  HW_TRY(find_store(data));
  HW_TAKE(place, place_of(data));
  HW_TAKE(db, open_database(place, sql::Access::write));
  HW_TRY(check_tables_are_ours(*db, data.string()));
  HW_TAKE(kept, keep_servers_out(place, db->tenant()));
  (void)kept;  // to the end
  HW_TAKE(transaction, sql::Transaction::begin(*db));
  HW_TAKE(entries, rebuild_derived(*db));
  HW_TAKE(observations, rebuild_counts(*db, now));
  HW_TRY(transaction.commit());
  return service::RebuildReport{{std::move(entries), std::move(observations)}};
}

}  // namespace hw::storage
