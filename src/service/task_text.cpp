#include "src/service/task_text.h"

namespace hw::service {
namespace {

using catalogue::CalendarTrigger;
using catalogue::CounterTrigger;
using catalogue::ReadingTrigger;
using catalogue::Trigger;

Result<Trigger> calendar_trigger(const TriggerText& text) {
  if (text.interval || text.heads_up || text.tolerance) {
    return refuse(ErrorCode::bad_input,
                  "interval, heads_up and tolerance belong to a counter; a calendar trigger has "
                  "heads_up_days and tolerance_days");
  }
  auto every = catalogue::parse_calendar_interval(*text.calendar);
  if (!every) return refuse(every.error().at("calendar"));
  return CalendarTrigger{*every, text.heads_up_days.value_or(0), text.tolerance_days.value_or(0)};
}

Result<Trigger> counter_trigger(const TriggerText& text) {
  if (text.heads_up_days || text.tolerance_days) {
    return refuse(ErrorCode::bad_input,
                  "heads_up_days and tolerance_days belong to the calendar; a counter trigger has "
                  "heads_up and tolerance");
  }
  if (!text.interval) return refuse(ErrorCode::bad_input, "interval: it is missing; for example 400");
  return CounterTrigger{*text.counter, *text.interval, text.heads_up.value_or(0), text.tolerance.value_or(0)};
}

Result<Trigger> reading_trigger(const TriggerText& text) {
  if (text.interval || text.heads_up || text.tolerance || text.tolerance_days) {
    return refuse(ErrorCode::bad_input, "a trigger by a reading has of, limit and heads_up_days, nothing else");
  }
  if (!text.of) return refuse(ErrorCode::bad_input, "of: it is missing; the key of the task that reads it");
  if (!text.limit) return refuse(ErrorCode::bad_input, "limit: it is missing; warning or action");
  auto limit = catalogue::parse_limit_kind(*text.limit);
  if (!limit) return refuse(limit.error().at("limit"));
  return ReadingTrigger{*text.reading, *text.of, *limit, text.heads_up_days.value_or(0)};
}

Result<Trigger> trigger_of(const TriggerText& text) {
  if (text.counter.has_value() + text.calendar.has_value() + text.reading.has_value() != 1) {
    return refuse(ErrorCode::bad_input, "a trigger has one of these: a counter, a calendar interval, a reading");
  }
  if (text.reading) return reading_trigger(text);
  if (text.of || text.limit) return refuse(ErrorCode::bad_input, "of and limit belong to a reading");
  return text.calendar ? calendar_trigger(text) : counter_trigger(text);
}

TriggerText text_of(const Trigger& trigger) {
  TriggerText text;
  if (const auto* counter = std::get_if<CounterTrigger>(&trigger)) {
    text.counter = counter->counter;
    text.interval = counter->interval;
    text.heads_up = counter->heads_up;
    text.tolerance = counter->tolerance;
  } else if (const auto* calendar = std::get_if<CalendarTrigger>(&trigger)) {
    text.calendar = print(calendar->every);
    text.heads_up_days = calendar->heads_up_days;
    text.tolerance_days = calendar->tolerance_days;
  } else {
    const auto& reading = std::get<ReadingTrigger>(trigger);
    text.reading = reading.reading;
    text.of = reading.of;
    text.limit = word_of(reading.limit);
    text.heads_up_days = reading.heads_up_days;
  }
  return text;
}

Result<std::vector<Trigger>> triggers_of(const std::vector<TriggerText>& texts) {
  std::vector<Trigger> triggers;
  for (const TriggerText& text : texts) {
    auto trigger = trigger_of(text);
    if (!trigger) return refuse(trigger.error().at(fmt::format("triggers[{}]", triggers.size())));
    triggers.push_back(*trigger);
  }
  return triggers;
}

Result<catalogue::Bounds> bounds_of(const std::optional<BoundsText>& text, std::string_view field) {
  if (!text) return catalogue::Bounds{};
  if (text->min || text->max) return catalogue::Bounds{text->min, text->max};
  return refuse(ErrorCode::bad_input, "{}: it has min, max or both; leave it out where there is no limit", field);
}

Result<std::vector<catalogue::TaskReading>> readings_of(const TaskText& text) {
  std::vector<catalogue::TaskReading> readings;
  for (const TaskReadingText& one : text.readings.value_or(std::vector<TaskReadingText>{})) {
    const std::string place = fmt::format("readings[{}]", readings.size());
    const auto warning = bounds_of(one.warning, "warning");
    if (!warning) return refuse(warning.error().at(place));
    const auto action = bounds_of(one.action, "action");
    if (!action) return refuse(action.error().at(place));
    readings.push_back({one.what, one.unit, *warning, *action});
  }
  return readings;
}

std::optional<BoundsText> text_of(const catalogue::Bounds& bounds) {
  if (bounds == catalogue::Bounds{}) return std::nullopt;
  return BoundsText{bounds.min, bounds.max};
}

std::optional<std::vector<TaskReadingText>> text_of(const std::vector<catalogue::TaskReading>& readings) {
  if (readings.empty()) return std::nullopt;
  std::vector<TaskReadingText> texts;
  for (const auto& one : readings) texts.push_back(service::text_of(one));
  return texts;
}

std::optional<catalogue::PartCosts> costs_of(const TaskText& text) {
  if (!text.costs) return std::nullopt;
  const catalogue::PartCosts costs{text.costs->parts.value_or(0), text.costs->failed_hours.value_or(0),
                                   text.costs->failed_damage.value_or(0), text.costs->wear};
  return costs == catalogue::PartCosts{} ? std::nullopt : std::optional{costs};
}

}  // namespace

Result<catalogue::Task> task_of(std::string key, const TaskText& text) {
  const auto work = catalogue::parse_work_type(text.work);
  if (!work) return refuse(work.error().at("work"));
  const auto skill = catalogue::parse_skill(text.skill);
  if (!skill) return refuse(skill.error().at("skill"));
  const auto energy = catalogue::parse_energy_state(text.energy);
  if (!energy) return refuse(energy.error().at("energy"));
  const auto demand = catalogue::parse_demand(text.demanded_by.value_or("nobody"));
  if (!demand) return refuse(demand.error().at("demanded_by"));
  auto triggers = triggers_of(text.triggers);
  if (!triggers) return refuse(triggers.error());
  auto readings = readings_of(text);
  if (!readings) return refuse(readings.error());
  catalogue::Task task{.key = std::move(key),
                       .title = text.title,
                       .assembly = text.assembly,
                       .point = text.point,
                       .work = *work,
                       .skill = *skill,
                       .energy = *energy,
                       .minutes = text.minutes,
                       .triggers = std::move(*triggers),
                       .steps = text.steps.value_or(std::vector<std::string>{}),
                       .reason = text.reason.value_or(""),
                       .caution = text.caution.value_or(""),
                       .parts = {},
                       .readings = std::move(*readings),
                       .quantity_unit = text.quantity_unit,
                       .after = text.after.value_or(std::vector<std::string>{}),
                       .demanded_by = *demand,
                       .costs = costs_of(text)};
  for (const PartText& part : text.parts.value_or(std::vector<PartText>{})) {
    task.parts.push_back({part.name, part.quantity, part.unit});
  }
  if (auto checked = check(task); !checked) return refuse(checked.error());
  return task;
}

TaskReadingText text_of(const catalogue::TaskReading& reading) {
  return {reading.what, reading.unit, text_of(reading.warning), text_of(reading.action)};
}

TaskText text_of(const catalogue::Task& task) {
  TaskText text{.title = task.title,
                .assembly = task.assembly,
                .point = task.point,
                .work = std::string{word_of(task.work)},
                .skill = std::string{word_of(task.skill)},
                .energy = std::string{word_of(task.energy)},
                .minutes = task.minutes,
                .triggers = {},
                .steps = task.steps,
                .reason = task.reason,
                .caution = task.caution,
                .parts = std::vector<PartText>{},
                .readings = text_of(task.readings),
                .quantity_unit = task.quantity_unit,
                .after = {},
                .demanded_by = {},
                .costs = {}};
  if (task.demanded_by != catalogue::Demand::nobody) text.demanded_by = word_of(task.demanded_by);
  if (task.costs)
    text.costs =
        PartCostsText{task.costs->parts, task.costs->failed_hours, task.costs->failed_damage, task.costs->wear};
  if (!task.after.empty()) text.after = task.after;
  for (const Trigger& trigger : task.triggers) text.triggers.push_back(text_of(trigger));
  for (const auto& part : task.parts) text.parts->push_back({part.name, part.quantity, part.unit});
  return text;
}

}  // namespace hw::service
