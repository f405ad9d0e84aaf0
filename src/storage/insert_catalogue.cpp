#include "libs/formats/json.h"
#include "src/service/isolation_text.h"
#include "src/service/task_text.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/logbook_rows.h"
#include "src/storage/stopping_json.h"
#include "src/storage/stored_text.h"

namespace hw::storage {
namespace {

using service::MachineRecord;
using service::ShopRecord;

std::string weekdays_text(const std::vector<int>& weekdays) {
  std::string text;
  for (int day : weekdays) text += static_cast<char>('0' + day);
  return text;
}

Result<void> insert_calendar(sql::Connection& db, const catalogue::PlantCalendar& calendar) {
  int ordinal = 0;
  for (const auto& shift : calendar.shifts) {
    HW_TRY(db.execute(
        "insert into shift(plant, ordinal, name, begins_minute, ends_minute, weekdays) "
        "values($1, $2, $3, $4, $5, $6)",
        db.tenant(), ordinal++, shift.name, shift.begins_minute, shift.ends_minute, weekdays_text(shift.weekdays)));
  }
  for (const auto& day : calendar.closed) {
    HW_TRY(db.execute("insert into closed_day(plant, closed_on, why) values($1, $2, $3)", db.tenant(), day.on.days,
                      day.why));
  }
  return {};
}

Result<void> insert_people(sql::Connection& db, const std::vector<catalogue::Person>& people) {
  int ordinal = 0;
  for (const auto& person : people) {
    HW_TRY(db.execute("insert into person(plant, ordinal, name, skill, is_lead) values($1, $2, $3, $4, $5)",
                      db.tenant(), ordinal++, person.name, word_of(person.skill), person.is_lead));
  }
  return {};
}

Result<void> insert_places(sql::Connection& db, const MachineRecord& record) {
  const std::string& machine = record.machine.key;
  int ordinal = 0;
  for (const auto& assembly : record.assemblies) {
    HW_TRY(db.execute("insert into assembly(plant, machine, assembly, ordinal, title) values($1, $2, $3, $4, $5)",
                      db.tenant(), machine, assembly.key, ordinal++, assembly.title));
  }
  for (const auto& point : record.points) {
    HW_TRY(db.execute(
        "insert into point(plant, machine, number, assembly, title, x, y) values($1, $2, $3, $4, $5, $6, $7)",
        db.tenant(), machine, point.number, point.assembly, point.title, point.x, point.y));
  }
  return {};
}

}  // namespace

Result<void> insert_shop(sql::Connection& db, const ShopRecord& shop) {
  HW_TRY(db.execute("insert into plant(plant, name, zone, aliases, stopping) values($1, $2, $3, $4, $5)", db.tenant(),
                    shop.plant, shop.calendar.zone.name(), formats::print_json(shop.aliases),
                    formats::print_json(shop.stopping)));
  HW_TRY(begin_logbook(db));
  HW_TRY(insert_calendar(db, shop.calendar));
  int ordinal = 0;
  for (const auto& cell : shop.cells) {
    HW_TRY(db.execute("insert into cell(plant, ordinal, cell, title, max_down) values($1, $2, $3, $4, $5)", db.tenant(),
                      ordinal++, cell.key, cell.title, cell.max_down));
  }
  HW_TRY(insert_people(db, shop.people));
  for (const auto& kind : shop.kinds) {
    HW_TRY(
        db.execute("insert into kind(plant, kind, title, title_de, isolation, services) values($1, $2, $3, $4, $5, $6)",
                   db.tenant(), kind.key, kind.title, kind.title_de,
                   formats::print_json(service::text_of(kind.isolation)), formats::print_json(kind.services)));
  }
  for (const auto& feed : shop.feeds) {
    HW_TRY(db.execute("insert into feed(plant, feed, url) values($1, $2, $3)", db.tenant(), feed.key, feed.url));
  }
  return {};
}

Result<void> insert_machine(sql::Connection& db, const MachineRecord& record, int ordinal) {
  const catalogue::Machine& machine = record.machine;
  HW_TRY(
      db.execute("insert into machine(plant, machine, ordinal, name, kind, cell, year, note, feed, device, fills, "
                 "walk, standing_per_hour) values($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)",
                 db.tenant(), machine.key, ordinal, machine.name, machine.kind, machine.cell, machine.year,
                 machine.note, record.feed, record.device, formats::print_json(machine.fills),
                 formats::print_json(record.walk), machine.standing_per_hour));
  HW_TRY(insert_places(db, record));
  for (const auto& task : record.tasks) HW_TRY(put_task(db, machine.key, task));
  return {};
}

Result<void> put_task(sql::Connection& db, std::string_view machine, const service::TaskRecord& record) {
  HW_TRY(db.execute(
      "insert into task(plant, machine, task, ordinal, version, is_own, retired_ms, began_ms, began_counters, body) "
      "select $1, $2, $3, coalesce(max(ordinal), 0) + 1, $4, $5, $6, $7, $8, $9 from task "
      "where plant = $1 and machine = $2 on conflict(plant, machine, task) do update set version = excluded.version, "
      "retired_ms = excluded.retired_ms, body = excluded.body",
      db.tenant(), machine, record.task.key, record.version, record.is_own, millis_of(record.retired_at),
      record.began_at.as_millis(), formats::print_json(record.began_counters),
      formats::print_json(service::text_of(record.task))));
  return {};
}

Result<void> put_points(sql::Connection& db, std::string_view machine, const std::vector<catalogue::Point>& points) {
  for (const auto& point : points) {
    HW_TRY(db.execute("update point set x = $4, y = $5 where plant = $1 and machine = $2 and number = $3", db.tenant(),
                      machine, point.number, point.x, point.y));
  }
  return {};
}

Result<void> put_walk(sql::Connection& db, std::string_view machine, const std::vector<int>& walk) {
  HW_TRY(db.execute("update machine set walk = $3 where plant = $1 and machine = $2", db.tenant(), machine,
                    formats::print_json(walk)));
  return {};
}

}  // namespace hw::storage
