#include "src/catalogue/task_fields.h"

namespace hw::catalogue {
namespace {

CalendarTrigger read_calendar_trigger(TomlTable& table) {
  return {.every = table.take("calendar", parse_calendar_interval(table.text("calendar"))),
          .heads_up_days = table.whole_or("heads_up_days", 0),
          .tolerance_days = table.whole_or("tolerance_days", 0)};
}

CounterTrigger read_counter_trigger(TomlTable& table) {
  return {.counter = table.text("counter"),
          .interval = table.number("interval"),
          .heads_up = table.number_or("heads_up", 0),
          .tolerance = table.number_or("tolerance", 0)};
}

ReadingTrigger read_reading_trigger(TomlTable& table) {
  return {.reading = table.text("reading"),
          .of = table.text("of"),
          .limit = table.take("limit", parse_limit_kind(table.text("limit"))),
          .heads_up_days = table.whole_or("heads_up_days", 0)};
}

Trigger read_trigger(TomlTable& table) {
  if (table.has("reading")) return read_reading_trigger(table);
  if (table.has("calendar")) return read_calendar_trigger(table);
  return read_counter_trigger(table);
}

Part read_part(TomlTable& table) { return {table.text("name"), table.number("quantity"), table.text("unit")}; }

Bounds read_ends(TomlTable& table) {
  Bounds bounds;
  if (table.has("min")) bounds.min = table.number("min");
  if (table.has("max")) bounds.max = table.number("max");
  return bounds;
}

Bounds read_bounds(TomlTable& table, std::string_view field) {
  if (!table.has(field)) return {};
  const Bounds bounds = table.one(field, read_ends);
  if (bounds == Bounds{}) table.mistake(field, "it has min, max or both, for example { min = 5 }");
  return bounds;
}

TaskReading read_reading(TomlTable& table) {
  return {table.text("what"), table.text("unit"), read_bounds(table, "warning"), read_bounds(table, "action")};
}

PartCosts read_costs(TomlTable& table) {
  PartCosts costs{table.number_or("parts", 0), table.number_or("failed_hours", 0), table.number_or("failed_damage", 0)};
  if (table.has("wear")) costs.wear = table.number("wear");
  return costs;
}

}  // namespace

Task read_task(TomlTable& table) {
  Task task;
  task.key = table.text("key");
  task.title = table.text("title");
  task.assembly = table.text("assembly");
  if (table.has("point")) task.point = table.whole_or("point", 0);
  task.work = table.take("work", parse_work_type(table.text("work")));
  task.skill = table.take("skill", parse_skill(table.text("skill")));
  task.energy = table.take("energy", parse_energy_state(table.text("energy")));
  task.minutes = table.number("minutes");
  task.triggers = table.each("trigger", read_trigger);
  task.steps = table.texts("steps");
  task.reason = table.text("reason");
  task.caution = table.text("caution");
  task.parts = table.each("parts", read_part);
  task.readings = table.each("reading", read_reading);
  if (table.has("quantity_unit")) task.quantity_unit = table.text("quantity_unit");
  if (table.has("after")) task.after = table.texts("after");
  if (table.has("demanded_by")) task.demanded_by = table.take("demanded_by", parse_demand(table.text("demanded_by")));
  if (table.has("costs")) task.costs = table.one("costs", read_costs);
  if (auto checked = check(task); !checked) table.mistake("key", checked.error().message);
  return task;
}

}  // namespace hw::catalogue
