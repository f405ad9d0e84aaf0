#include <algorithm>

#include "src/catalogue/clock_text.h"
#include "src/catalogue/shop_files.h"
#include "src/catalogue/stopping_fields.h"
#include "src/catalogue/task_fields.h"

namespace hw::catalogue {
namespace {

Shift read_shift(TomlTable& table) {
  Shift shift;
  shift.name = table.text("name");
  shift.begins_minute = table.take("starts", parse_clock(table.text("starts")));
  shift.ends_minute = table.take("ends", parse_clock(table.text("ends")));
  shift.weekdays = table.wholes("weekdays");
  const auto is_weekday = [](int day) { return day >= 1 && day <= 7; };
  if (!std::all_of(shift.weekdays.begin(), shift.weekdays.end(), is_weekday)) {
    table.mistake("weekdays", "they are 1 (Monday) to 7 (Sunday)");
  }
  return shift;
}

ClosedDay read_closed_day(TomlTable& table) {
  return {table.take("date", parse_local_date(table.text("date"))), table.text("why")};
}

Cell read_cell(TomlTable& table) {
  Cell cell{table.text("key"), table.text("title")};
  if (table.has("max_down")) cell.max_down = table.whole_or("max_down", 0);
  if (cell.max_down && *cell.max_down < 0) table.mistake("max_down", "it is 0 or more machines");
  return cell;
}

Person read_person(TomlTable& table) {
  return {table.text("name"), table.take("skill", parse_skill(table.text("skill"))), table.flag_or("lead", false)};
}

Machine read_machine(TomlTable& table) {
  Machine machine;
  machine.key = table.text("key");
  machine.name = table.text("name");
  machine.kind = table.text("kind");
  machine.cell = table.text("cell");
  if (table.has("year")) machine.year = table.whole_or("year", 0);
  machine.note = table.text_or("note", "");
  machine.agent = table.text_or("agent", "");
  machine.device = table.text_or("device", "");
  if (table.has("fills")) machine.fills = table.one("fills", [](TomlTable& fills) { return fills.all_texts(); });
  machine.own_tasks = table.each("own_task", read_task);
  if (table.has("standing_per_hour")) machine.standing_per_hour = amount_or(table, "standing_per_hour", 0, 1e6);
  return machine;
}

void read_plant(TomlTable& table, Shop& shop) {
  shop.plant = table.text("name");
  shop.agent = table.text_or("agent", "");
  auto zone = Zone::find(table.text("zone"));
  if (zone) {
    shop.calendar.zone = *zone;
  } else {
    table.mistake("zone", zone.error().message);
  }
}

void check_cells(TomlTable& table, const Shop& shop) {
  for (const Machine& machine : shop.machines) {
    const auto is_its_cell = [&](const Cell& cell) { return cell.key == machine.cell; };
    if (std::any_of(shop.cells.begin(), shop.cells.end(), is_its_cell)) continue;
    table.mistake("machine", fmt::format("{} is in cell \"{}\", which is not there", machine.key, machine.cell));
  }
}

Shop read_shop(TomlTable& table) {
  Shop shop;
  if (table.text("format") != "hourwright-shop-1") table.mistake("format", "it is \"hourwright-shop-1\"");
  table.one("plant", [&](TomlTable& plant) {
    read_plant(plant, shop);
    return 0;
  });
  if (table.has("aliases")) shop.aliases = table.one("aliases", [](TomlTable& words) { return words.all_texts(); });
  shop.calendar.shifts = table.each("shift", read_shift);
  shop.calendar.closed = table.each("closed", read_closed_day);
  shop.cells = table.each("cell", read_cell);
  shop.people = table.each("person", read_person);
  shop.machines = table.each("machine", read_machine);
  check_once(table, "closed", shop.calendar.closed, [](const ClosedDay& day) { return print(day.on); });
  check_once(table, "person", shop.people, [](const Person& person) { return person.name; });
  check_keys_once(table, "cell", shop.cells);
  check_keys_once(table, "machine", shop.machines);
  check_cells(table, shop);
  shop.stopping = read_stopping(table);
  check_stopping(table, shop);
  return shop;
}

}  // namespace

Result<Shop> parse_shop(std::string_view text, std::string_view file) { return read_document(text, file, read_shop); }

}  // namespace hw::catalogue
