#include "src/storage/moving.h"

#include <algorithm>

#include "libs/sql/folder.h"
#include "libs/sql/postgres.h"
#include "libs/sql/sqlite.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/copied_rows.h"
#include "src/storage/grant_files.h"
#include "src/storage/grant_rows.h"
#include "src/storage/logbook_rows.h"
#include "src/storage/open_store.h"
#include "src/storage/record_digest.h"
#include "src/storage/schema.h"
#include "src/storage/shared_database.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;
using copies::MoveReport;

// A move under way: both sides open, each within one transaction.
struct Move {
  sql::Connection& from;
  sql::Connection& to;
  DatabasePlace place;  // of `to`
  bool is_again;        // one was begun before and not ended
};

// Whether a move was begun before and not ended. The address holds a password, maybe: no message has it.
Result<bool> may_move(const fs::path& data, const std::string& address) {
  HW_TAKE(begun, begun_move(data));
  if (begun) {
    if (begun->address == address) return true;
    return refuse(ErrorCode::conflict, "{}: a move into another database was begun and not ended; name that one",
                  data.string());
  }
  HW_TAKE(place, place_of(data));
  if (place.is_on_server()) {
    return refuse(ErrorCode::conflict, "{}: its shop lies in a database on a server already", data.string());
  }
  HW_TRY(find_store(data));
  return false;
}

// The file, also where a move that was broken off has given it its new name.
Result<std::unique_ptr<sql::Connection>> open_file(const fs::path& data) {
  std::error_code error;
  const DatabasePlace place{data};
  const fs::path file = fs::exists(place.file(), error) ? place.file() : data / moved_file;
  HW_TAKE(db, sql::open_sqlite(file, sql::Access::write, {.application_id = application_id}));
  HW_TRY(check_tables_are_ours(*db, data.string()));
  HW_TRY(act_for_plant(*db, place));
  return std::move(db);
}

Result<bool> holds_plant(sql::Connection& db, const std::string& key) {
  HW_TAKE(plants, plants_of(db));
  return std::find(plants.begin(), plants.end(), key) != plants.end();
}

Result<MoveReport> report_of(sql::Connection& db, const fs::path& data) {
  HW_TAKE(plant, db.query_value<std::string>("select name from plant where plant = $1", db.tenant()));
  if (!plant) return refuse(ErrorCode::not_found, "{}: no shop has been founded here", data.string());
  HW_TAKE(chain, read_chain(db, {}));
  HW_TAKE(digest, record_digest(db));
  MoveReport report{data.string(),
                    db.tenant(),
                    *plant,
                    chain.entries,
                    chain.head,
                    static_cast<int>(chain.breaks.size()),
                    digest.sha256,
                    {},
                    0,
                    (data / moved_file).string()};
  for (const TableRows& table : digest.tables) report.tables.push_back({table.table, table.rows});
  return report;
}

// Whether the plant that is there goes on from this shop's newest entry. A server may have it by now.
Result<void> check_is_ours(Move& move, const MoveReport& report) {
  HW_TAKE(hash, move.to.query_value<std::string>("select hash from entry where plant = $1 and hash = $2", report.key,
                                                 report.head));
  HW_TAKE(name, move.to.query_value<std::string>("select name from plant where plant = $1", report.key));
  if (name == report.plant && (report.entries == 0 || hash)) return {};
  return refuse(ErrorCode::conflict, "{}: the database holds another shop under the key {}", report.data, report.key);
}

Result<int> copy_grants(Move& move) {
  int count = 0;
  for (const std::string& hash : left_grants(move.place.folder)) {
    HW_TAKE(grant, read_grant(move.place.folder, hash));
    if (!grant) continue;
    HW_TRY(insert_grant(move.to, hash, *grant));
    ++count;
  }
  return count;
}

Result<void> copy_checked(Move& move, MoveReport& report) {
  HW_TRY(copy_rows(move.from, move.to));
  HW_TAKE(copied, record_digest(move.to));
  if (copied.sha256 != report.sha256) {
    return refuse(ErrorCode::corrupt,
                  "{}: what came into the database is not what the file holds ({}, not {}); nothing "
                  "was moved",
                  report.data, copied.sha256, report.sha256);
  }
  HW_TAKE(grants, copy_grants(move));
  report.grants = grants;
  return {};
}

// Where the database refuses to commit, the shop stays in its file; where it falls silent nobody knows yet.
Result<void> commit_noted(sql::Transaction& writing, const DatabasePlace& place) {
  HW_TRY(begin_move(place));
  auto committed = writing.commit();
  if (!committed) HW_TRY(give_up_move(place.folder));
  return committed;
}

Result<MoveReport> move_rows(Move& move) {
  HW_TAKE(reading, sql::Transaction::begin(move.from));
  HW_TAKE(writing, sql::Transaction::begin(move.to));
  HW_TAKE(report, report_of(move.from, move.place.folder));
  HW_TAKE(is_there, holds_plant(move.to, move.place.plant));
  if (is_there && !move.is_again) {
    return refuse(ErrorCode::conflict,
                  "{}: the database holds a plant with the key {} already; this one keeps its key, under which its "
                  "entries are sealed: name another database",
                  report.data, report.key);
  }
  if (is_there) {
    HW_TRY(check_is_ours(move, report));
  } else {
    HW_TRY(copy_checked(move, report));
    HW_TRY(commit_noted(writing, move.place));
  }
  HW_TRY(reading.commit());
  return std::move(report);
}

// Both connections are gone, and with them the file's write-ahead log.
Result<void> leave_file(const DatabasePlace& place) {
  std::error_code error;
  if (fs::exists(place.file(), error)) fs::rename(place.file(), place.folder / moved_file, error);
  if (error) {
    return refuse(ErrorCode::disk_full,
                  "{}: cannot be renamed: {}; the shop is in the database; say it again once this "
                  "is right",
                  place.file().string(), error.message());
  }
  HW_TRY(sql::sync_folder(place.folder));
  HW_TRY(end_move(place));
  for (const std::string& hash : left_grants(place.folder)) HW_TRY(drop_grant(place.folder, hash));
  return {};
}

}  // namespace

Result<MoveReport> move_to_server(const fs::path& data, const std::string& address) {
  if (!sql::is_postgres_address(address)) {
    return refuse(ErrorCode::bad_input, "--database: no address of a database; postgresql://HOST/DATABASE is one");
  }
  HW_TRY(may_move(data, address));  // before anything is made in a folder that has no shop
  HW_TAKE(lock, sql::lock_folder(data));
  const sql::FolderLock alone = std::move(lock);
  HW_TAKE(is_again, may_move(data, address));
  MoveReport report;
  DatabasePlace place{data, address};
  {
    HW_TAKE(from, open_file(data));
    place.plant = from->tenant();
    HW_TAKE(to, open_with_tables(place));
    Move move{*from, *to, place, is_again};
    HW_TAKE(moved, move_rows(move));
    report = std::move(moved);
  }
  HW_TRY(leave_file(place));
  return report;
}

}  // namespace hw::storage
