#include "libs/formats/json.h"
#include "src/service/isolation_text.h"
#include "src/service/task_text.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/stopping_json.h"
#include "src/storage/stored_text.h"

namespace hw::storage {
namespace {

using service::MachineRecord;
using service::ShopRecord;
using service::TaskRecord;

std::vector<int> weekdays_of(std::string_view text) {
  std::vector<int> weekdays;
  for (char digit : text) weekdays.push_back(digit - '0');
  return weekdays;
}

Result<void> read_calendar(sql::Connection& db, catalogue::PlantCalendar& calendar) {
  HW_TAKE(shifts,
          db.query("select name, begins_minute, ends_minute, weekdays from shift where plant = $1 order by ordinal",
                   db.tenant()));
  while (shifts.next()) {
    calendar.shifts.push_back({shifts.get<std::string>(0), shifts.get<int>(1), shifts.get<int>(2),
                               weekdays_of(shifts.get<std::string_view>(3))});
  }
  HW_TAKE(closed, db.query("select closed_on, why from closed_day where plant = $1 order by closed_on", db.tenant()));
  while (closed.next()) calendar.closed.push_back({LocalDate{closed.get<int>(0)}, closed.get<std::string>(1)});
  return {};
}

Result<void> read_people(sql::Connection& db, ShopRecord& shop) {
  HW_TAKE(people, db.query("select name, skill, is_lead from person where plant = $1 order by ordinal", db.tenant()));
  while (people.next()) {
    HW_TAKE(skill, stored(catalogue::parse_skill(people.get<std::string_view>(1)), "person.skill"));
    shop.people.push_back({people.get<std::string>(0), skill, people.get<int>(2) != 0});
  }
  return {};
}

Result<void> read_kinds(sql::Connection& db, ShopRecord& shop) {
  HW_TAKE(kinds, db.query("select kind, title, title_de, isolation, services from kind where plant = $1 order by kind",
                          db.tenant()));
  while (kinds.next()) {
    HW_TAKE(text,
            stored(formats::parse_json<service::IsolationText>(kinds.get<std::string_view>(3)), "kind.isolation"));
    HW_TAKE(isolation, stored(service::isolation_of(text), "kind.isolation"));
    HW_TAKE(services, stored(formats::parse_json<std::vector<catalogue::KindService>>(kinds.get<std::string_view>(4)),
                             "kind.services"));
    shop.kinds.push_back({kinds.get<std::string>(0), kinds.get<std::string>(1), kinds.get<std::string>(2),
                          std::move(isolation), std::move(services)});
  }
  return {};
}

Result<void> read_lists(sql::Connection& db, ShopRecord& shop) {
  HW_TAKE(cells, db.query("select cell, title, max_down from cell where plant = $1 order by ordinal", db.tenant()));
  while (cells.next()) {
    shop.cells.push_back({cells.get<std::string>(0), cells.get<std::string>(1), cells.get<std::optional<int>>(2)});
  }
  HW_TRY(read_kinds(db, shop));
  HW_TAKE(feeds, db.query("select feed, url from feed where plant = $1 order by feed", db.tenant()));
  while (feeds.next()) shop.feeds.push_back({feeds.get<std::string>(0), feeds.get<std::string>(1)});
  return {};
}

Result<void> read_places(sql::Connection& db, MachineRecord& record) {
  const std::string& machine = record.machine.key;
  HW_TAKE(assemblies,
          db.query("select assembly, title from assembly where plant = $1 and machine = $2 order by ordinal",
                   db.tenant(), machine));
  while (assemblies.next()) {
    record.assemblies.push_back({assemblies.get<std::string>(0), assemblies.get<std::string>(1)});
  }
  HW_TAKE(points, db.query("select number, assembly, title, x, y from point where plant = $1 and machine = $2 "
                           "order by number",
                           db.tenant(), machine));
  while (points.next()) {
    record.points.push_back({points.get<int>(0), points.get<std::string>(1), points.get<std::string>(2),
                             points.get<double>(3), points.get<double>(4)});
  }
  return {};
}

}  // namespace

Result<std::optional<ShopRecord>> read_shop(sql::Connection& db) {
  HW_TAKE(plant, db.query("select name, zone, aliases, stopping from plant where plant = $1", db.tenant()));
  if (!plant.next()) return std::optional<ShopRecord>{};
  ShopRecord shop;
  shop.plant = plant.get<std::string>(0);
  HW_TAKE(zone, Zone::find(plant.get<std::string_view>(1)));
  shop.calendar.zone = zone;
  HW_TAKE(aliases, stored(formats::parse_json<std::map<std::string, std::string>>(plant.get<std::string_view>(2)),
                          "plant.aliases"));
  shop.aliases = std::move(aliases);
  HW_TAKE(stopping, stored(formats::parse_json<catalogue::Stopping>(plant.get<std::string_view>(3)), "plant.stopping"));
  shop.stopping = std::move(stopping);
  HW_TRY(read_calendar(db, shop.calendar));
  HW_TRY(read_people(db, shop));
  HW_TRY(read_lists(db, shop));
  return std::optional{std::move(shop)};
}

Result<std::vector<MachineRecord>> read_machines(sql::Connection& db) {
  std::vector<MachineRecord> machines;
  HW_TAKE(rows, db.query("select machine, name, kind, cell, year, note, feed, device, fills, walk, "
                         "standing_per_hour from machine where "
                         "plant = $1 order by ordinal",
                         db.tenant()));
  while (rows.next()) {
    MachineRecord record;
    catalogue::Machine& machine = record.machine;
    machine.key = rows.get<std::string>(0);
    machine.name = rows.get<std::string>(1);
    machine.kind = rows.get<std::string>(2);
    machine.cell = rows.get<std::string>(3);
    machine.year = rows.get<std::optional<int>>(4);
    machine.note = rows.get<std::string>(5);
    HW_TAKE(fills, stored(formats::parse_json<std::map<std::string, std::string>>(rows.get<std::string_view>(8)),
                          "machine.fills"));
    machine.fills = std::move(fills);
    record.feed = rows.get<std::optional<std::string>>(6);
    record.device = rows.get<std::string>(7);
    HW_TAKE(walk, stored(formats::parse_json<std::vector<int>>(rows.get<std::string_view>(9)), "machine.walk"));
    record.walk = std::move(walk);
    machine.standing_per_hour = rows.get<std::optional<double>>(10);
    HW_TRY(read_places(db, record));
    machines.push_back(std::move(record));
  }
  return machines;
}

Result<std::vector<TaskRecord>> read_tasks(sql::Connection& db, std::string_view machine) {
  std::vector<TaskRecord> tasks;
  HW_TAKE(rows, db.query("select task, version, is_own, retired_ms, began_ms, began_counters, body from task "
                         "where plant = $1 and machine = $2 order by ordinal",
                         db.tenant(), machine));
  while (rows.next()) {
    HW_TAKE(text, stored(formats::parse_json<service::TaskText>(rows.get<std::string_view>(6)), "task.body"));
    HW_TAKE(task, stored(service::task_of(rows.get<std::string>(0), text), "task.body"));
    HW_TAKE(counters,
            stored(formats::parse_json<service::CounterTotals>(rows.get<std::string_view>(5)), "task.began_counters"));
    TaskRecord record{.task = std::move(task),
                      .version = rows.get<int>(1),
                      .is_own = rows.get<int>(2) != 0,
                      .retired_at = instant_of(rows.get<std::optional<std::int64_t>>(3)),
                      .began_at = Instant::from_millis(rows.get<std::int64_t>(4)),
                      .began_counters = std::move(counters),
                      .last_done = {}};
    tasks.push_back(std::move(record));
  }
  return tasks;
}

}  // namespace hw::storage
