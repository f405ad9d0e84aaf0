#include "src/storage/entry_reading.h"

#include "libs/formats/json.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/stored_text.h"

namespace hw::storage {
namespace {

using service::CounterTotals;
using service::Entry;

constexpr std::string_view all_columns =
    "e.id, e.ordinal, e.kind, e.machine, e.task, e.by_name, e.at_ms, e.device_ms, e.happened_ms, e.says, e.note, "
    "e.counters, e.body, e.undoes, "
    "exists(select 1 from entry u where u.plant = e.plant and u.undoes = e.id), "
    "exists(select 1 from correction c where c.plant = e.plant and c.corrects = e.id)";

// Few entries are ever corrected; only they are asked for by which.
Result<void> read_corrections(sql::Connection& db, Entry& entry) {
  HW_TAKE(rows, db.query("select c.entry from correction c join entry e on e.plant = c.plant and e.id = c.entry "
                         "where c.plant = $1 and c.corrects = $2 order by e.ordinal",
                         db.tenant(), entry.id));
  while (rows.next()) entry.corrected_by.push_back(rows.get<std::string>(0));
  return {};
}

}  // namespace

std::string_view entry_columns() { return all_columns; }

Result<Entry> entry_alone(const sql::Rows& rows) {
  Entry entry;
  entry.id = rows.get<std::string>(0);
  entry.ordinal = rows.get<std::int64_t>(1);
  entry.kind = rows.get<std::string>(2);
  entry.machine = rows.get<std::string>(3);
  entry.task = rows.get<std::optional<std::string>>(4);
  entry.by = rows.get<std::string>(5);
  entry.at = Instant::from_millis(rows.get<std::int64_t>(6));
  entry.device_at = instant_of(rows.get<std::optional<std::int64_t>>(7));
  entry.happened_at = Instant::from_millis(rows.get<std::int64_t>(8));
  entry.says = rows.get<std::string>(9);
  entry.note = rows.get<std::optional<std::string>>(10);
  HW_TAKE(counters, stored(formats::parse_json<CounterTotals>(rows.get<std::string_view>(11)), "entry.counters"));
  entry.counters = std::move(counters);
  HW_TAKE(body, stored(formats::parse_json<service::EntryBody>(rows.get<std::string_view>(12)), "entry.body"));
  entry.body = std::move(body);
  entry.undoes = rows.get<std::optional<std::string>>(13);
  entry.is_undone = rows.get<int>(14) != 0;
  return entry;
}

Result<Entry> read_entry(sql::Connection& db, const sql::Rows& rows) {
  HW_TAKE(entry, entry_alone(rows));
  if (rows.get<int>(15) != 0) HW_TRY(read_corrections(db, entry));
  return std::move(entry);
}

Result<std::vector<Entry>> read_entries(sql::Connection& db, sql::Rows& rows) {
  std::vector<Entry> entries;
  while (rows.next()) {
    HW_TAKE(entry, read_entry(db, rows));
    entries.push_back(std::move(entry));
  }
  return entries;
}

}  // namespace hw::storage
