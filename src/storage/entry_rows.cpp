#include "src/storage/entry_rows.h"

#include "libs/formats/json.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/entry_reading.h"
#include "src/storage/stored_text.h"

namespace hw::storage {
namespace {

using service::Entry;

std::optional<Entry> first_of(std::vector<Entry> entries) {
  return entries.empty() ? std::nullopt : std::optional{std::move(entries.front())};
}

std::optional<std::string> printed(const std::optional<Saying>& saying) {
  return saying ? std::optional{formats::print_json(*saying)} : std::nullopt;
}

Result<std::optional<Saying>> saying_in(const std::optional<std::string>& text) {
  if (!text) return std::optional<Saying>{};
  HW_TAKE(saying, stored(formats::parse_json<Saying>(*text), "hour_reading.saying"));
  return std::optional{std::move(saying)};
}

// Of those that nobody took back.
std::string doings_query(std::string_view order, std::string_view and_only = "") {
  return fmt::format(
      "select {} from task_done d join entry e on e.plant = d.plant and e.id = d.entry where d.plant = $1 and "
      "d.machine = $2 and d.task = $3{} and not exists(select 1 from entry u where u.plant = d.plant and u.undoes = "
      "d.entry) order by {}",
      entry_columns(), and_only, order);
}

}  // namespace

Result<std::optional<Entry>> read_entry(sql::Connection& db, std::string_view id) {
  HW_TAKE(rows, db.query(fmt::format("select {} from entry e where e.plant = $1 and e.id = $2", entry_columns()),
                         db.tenant(), id));
  HW_TAKE(entries, read_entries(db, rows));
  return first_of(std::move(entries));
}

Result<std::vector<Entry>> read_entries(sql::Connection& db, std::string_view machine, int count_max) {
  HW_TAKE(rows, db.query(fmt::format("select {} from entry e where e.plant = $1 and e.machine = $2 "
                                     "order by e.ordinal desc limit $3",
                                     entry_columns()),
                         db.tenant(), machine, count_max));
  return read_entries(db, rows);
}

Result<std::optional<Entry>> read_last_done(sql::Connection& db, std::string_view machine, std::string_view task) {
  HW_TAKE(rows, db.query(doings_query("d.happened_ms desc, d.entry desc limit 1"), db.tenant(), machine, task));
  HW_TAKE(entries, read_entries(db, rows));
  return first_of(std::move(entries));
}

Result<std::vector<Entry>> read_doings(sql::Connection& db, std::string_view machine, std::string_view task) {
  HW_TAKE(rows, db.query(doings_query("d.happened_ms, d.entry"), db.tenant(), machine, task));
  return read_entries(db, rows);
}

Result<std::vector<Entry>> read_measured_doings(sql::Connection& db, std::string_view machine, std::string_view task,
                                                int count_max) {
  constexpr std::string_view measured = " and (e.body like '%\"doing\":%' or e.body like '%\"quantity\":%')";
  HW_TAKE(rows, db.query(doings_query("d.happened_ms desc, d.entry desc limit $4", measured), db.tenant(), machine,
                         task, count_max));
  return read_entries(db, rows);
}

Result<void> insert_hour_reading(sql::Connection& db, const service::HourReading& reading) {
  HW_TRY(
      db.execute("insert into hour_reading(plant, id, ordinal, machine, counter, display_h, read_ms, by_name, "
                 "counted_h, unknown_h, offset_h, difference_h, fits, says, saying) select $1, $2, "
                 "coalesce(max(ordinal), 0) + 1, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14 from hour_reading "
                 "where plant = $1",
                 db.tenant(), reading.id, reading.machine, reading.counter, reading.display_h,
                 reading.read_at.as_millis(), reading.by, reading.counted_h, reading.unknown_h, reading.offset_h,
                 reading.difference_h, reading.fits, reading.says, printed(reading.saying)));
  return {};
}

Result<void> insert_settlement(sql::Connection& db, const std::string& reading, const std::string& settled_as,
                               const std::string& entry) {
  HW_TRY(db.execute("insert into hour_settlement(plant, reading, settled_as, entry) values($1, $2, $3, $4)",
                    db.tenant(), reading, settled_as, entry));
  return {};
}

Result<std::vector<service::HourReading>> read_hour_readings(sql::Connection& db, std::string_view machine) {
  std::vector<service::HourReading> readings;
  HW_TAKE(rows,
          db.query("select r.id, r.machine, r.counter, r.display_h, r.read_ms, r.by_name, r.counted_h, r.unknown_h, "
                   "r.offset_h, r.difference_h, r.fits, r.says, r.saying, s.settled_as from hour_reading r "
                   "left join hour_settlement s on s.plant = r.plant and s.reading = r.id "
                   "where r.plant = $1 and r.machine = $2 order by r.ordinal desc",
                   db.tenant(), machine));
  while (rows.next()) {
    HW_TAKE(saying, saying_in(rows.get<std::optional<std::string>>(12)));
    readings.push_back({rows.get<std::string>(0), rows.get<std::string>(1), rows.get<std::string>(2),
                        rows.get<double>(3), Instant::from_millis(rows.get<std::int64_t>(4)), rows.get<std::string>(5),
                        rows.get<double>(6), rows.get<double>(7), rows.get<double>(8), rows.get<double>(9),
                        rows.get<int>(10) != 0, rows.get<std::string>(11), std::move(saying),
                        rows.get<std::optional<std::string>>(13)});
  }
  return readings;
}

Result<void> insert_adjustment(sql::Connection& db, const service::Adjustment& adjustment) {
  HW_TRY(
      db.execute("insert into adjustment(plant, ordinal, machine, counter, amount, is_start, at_ms) select $1, "
                 "coalesce(max(ordinal), 0) + 1, $2, $3, $4, $5, $6 from adjustment where plant = $1",
                 db.tenant(), adjustment.machine, adjustment.counter, adjustment.amount, adjustment.is_start,
                 adjustment.at.as_millis()));
  return {};
}

Result<std::vector<service::Adjustment>> read_adjustments(sql::Connection& db, std::string_view machine) {
  std::vector<service::Adjustment> adjustments;
  HW_TAKE(rows, db.query("select machine, counter, amount, is_start, at_ms from adjustment where plant = $1 and "
                         "machine = $2 order by ordinal",
                         db.tenant(), machine));
  while (rows.next()) {
    adjustments.push_back({rows.get<std::string>(0), rows.get<std::string>(1), rows.get<double>(2),
                           rows.get<int>(3) != 0, Instant::from_millis(rows.get<std::int64_t>(4))});
  }
  return adjustments;
}

}  // namespace hw::storage
