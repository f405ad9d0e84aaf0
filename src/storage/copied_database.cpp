#include "src/storage/copied_database.h"

#include "libs/sql/sqlite.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/copied_rows.h"
#include "src/storage/logbook_rows.h"
#include "src/storage/schema.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;

Result<std::unique_ptr<sql::Connection>> open_to_read(const fs::path& database) {
  return sql::open_sqlite(database, sql::Access::read, {.application_id = application_id});
}

Result<void> check_pages(sql::Connection& db) {
  HW_TAKE(says, db.query_value<std::string>("pragma integrity_check(1)"));
  if (says != "ok") return refuse(ErrorCode::corrupt, "the database is damaged: {}", says.value_or("no answer"));
  HW_TAKE(orphan, db.query_value<std::string>("select \"table\" from pragma_foreign_key_check limit 1"));
  if (!orphan) return {};
  return refuse(ErrorCode::corrupt, "the database is damaged: a row of {} names one that is not there", *orphan);
}

// A broken disk, or a damaged page, is a refusal here: nothing is going on that could be half done.
template <class Step>
auto refused_when_broken(const Step& step) -> decltype(step()) {
  try {
    return step();
  } catch (const sql::StorageFailed& failed) {
    return refuse(failed.error());
  }
}

Result<void> copy_from_server(sql::Connection& db, const DatabasePlace& here, const fs::path& file) {
  HW_TRY(check_tables_are_ours(db, here.folder.string()));
  HW_TAKE(copy, sql::open_sqlite(file, sql::Access::write, {.application_id = application_id}));
  HW_TRY(apply_steps(*copy, here, migrations()));
  HW_TRY(copy->act_for(db.tenant()));
  HW_TAKE(reading, sql::Transaction::begin(db));
  HW_TAKE(writing, sql::Transaction::begin(*copy));
  HW_TRY(copy_rows(db, *copy));
  HW_TRY(writing.commit());
  return reading.commit();
}

}  // namespace

int known_schema() { return static_cast<int>(migrations().size()); }

Result<void> take_snapshot(const DatabasePlace& place, const fs::path& file) {
  return refused_when_broken([&]() -> Result<void> {
    HW_TAKE(db, open_database(place, sql::Access::read));
    if (place.is_on_server()) return copy_from_server(*db, {file.parent_path()}, file);
    HW_TRY(db->execute("vacuum into $1", file.string()));
    return {};
  });
}

Result<void> check_integrity(const fs::path& database) {
  return refused_when_broken([&]() -> Result<void> {
    HW_TAKE(db, open_to_read(database));
    return check_pages(*db);
  });
}

Result<DatabaseContent> read_content(const fs::path& database) {
  return refused_when_broken([&]() -> Result<DatabaseContent> {
    HW_TAKE(db, open_to_read(database));
    HW_TAKE(schema, db->schema_version());
    if (schema > known_schema()) {
      return refuse(ErrorCode::unsupported, "{}: its tables are of version {}; this program knows up to {}",
                    database.string(), schema, known_schema());
    }
    HW_TRY(check_logbook_tables(*db));
    HW_TRY(act_for_plant(*db, {database.parent_path()}));
    HW_TAKE(snapshot, sql::Transaction::begin(*db));
    HW_TAKE(plant, db->query_value<std::string>("select name from plant where plant = $1", db->tenant()));
    if (!plant) return refuse(ErrorCode::not_found, "{}: no shop has been founded here", database.string());
    HW_TAKE(logbook, read_chain(*db, {}));
    HW_TRY(snapshot.commit());
    return DatabaseContent{schema, *plant, std::move(logbook)};
  });
}

}  // namespace hw::storage
