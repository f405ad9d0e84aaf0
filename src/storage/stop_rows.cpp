#include "src/storage/stop_rows.h"

#include "libs/formats/enum_words.h"
#include "libs/formats/json.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/entry_reading.h"
#include "src/storage/stored_text.h"

namespace hw::storage {
namespace {

using service::Entry;
using service::Stop;
using service::StopState;

Result<std::vector<Stop>> stops_of(sql::Rows& rows) {
  std::vector<Stop> stops;
  while (rows.next()) {
    HW_TAKE(stop, stored(formats::parse_json<Stop>(rows.get<std::string_view>(0)), "stop.body"));
    stops.push_back(std::move(stop));
  }
  return stops;
}

std::optional<std::int64_t> over_ms(const Stop& stop) {
  if (stop.closed) return stop.closed->at.as_millis();
  return stop.withdrawn ? std::optional{stop.withdrawn->at.as_millis()} : std::nullopt;
}

Result<void> put_stop(sql::Connection& db, const Stop& stop) {
  HW_TRY(db.execute(
      "insert into stop(plant, stop, machine, state, over_ms, body) values($1, $2, $3, $4, $5, $6) "
      "on conflict(plant, stop) do update set machine = excluded.machine, state = excluded.state, "
      "over_ms = excluded.over_ms, body = excluded.body",
      db.tenant(), stop.id, stop.machine, formats::print_word(stop.state), over_ms(stop), formats::print_json(stop)));
  return {};
}

Result<std::vector<Entry>> entries_about_stop(sql::Connection& db, std::string_view stop) {
  HW_TAKE(rows, db.query(fmt::format("select {} from stop_entry s join entry e on e.plant = s.plant and "
                                     "e.ordinal = s.ordinal where s.plant = $1 and s.stop = $2 order by s.ordinal",
                                     entry_columns()),
                         db.tenant(), stop));
  std::vector<Entry> entries;
  while (rows.next()) {
    HW_TAKE(entry, entry_alone(rows));
    entries.push_back(std::move(entry));
  }
  return entries;
}

}  // namespace

Result<void> derive_stop(sql::Connection& db, const Entry& entry) {
  if (!entry.body.stop) return {};
  HW_TRY(db.execute("insert into stop_entry(plant, stop, ordinal) values($1, $2, $3)", db.tenant(), *entry.body.stop,
                    entry.ordinal));
  HW_TAKE(entries, entries_about_stop(db, *entry.body.stop));
  const auto stop = service::stop_of(std::move(entries));
  return stop ? put_stop(db, *stop) : Result<void>{};
}

Result<std::optional<Stop>> read_stop(sql::Connection& db, std::string_view id) {
  HW_TAKE(rows, db.query("select body from stop where plant = $1 and stop = $2", db.tenant(), id));
  HW_TAKE(stops, stops_of(rows));
  return stops.empty() ? std::nullopt : std::optional{std::move(stops.front())};
}

Result<std::vector<Stop>> read_agreed_stops(sql::Connection& db, const std::optional<std::string>& machine) {
  HW_TAKE(rows, db.query("select body from stop where plant = $1 and over_ms is null and "
                         "machine = coalesce($2, machine)",
                         db.tenant(), machine));
  return stops_of(rows);
}

Result<std::vector<Stop>> read_past_stops(sql::Connection& db, const std::optional<std::string>& machine,
                                          std::optional<StopState> only, int count_max) {
  const auto state = only ? std::optional{formats::print_word(*only)} : std::nullopt;
  HW_TAKE(rows, db.query("select body from stop where plant = $1 and over_ms is not null and "
                         "machine = coalesce($2, machine) and state = coalesce($3, state) "
                         "order by over_ms desc, stop desc limit $4",
                         db.tenant(), machine, state, count_max));
  return stops_of(rows);
}

}  // namespace hw::storage
