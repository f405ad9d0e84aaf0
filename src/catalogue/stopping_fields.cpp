#include "src/catalogue/stopping_fields.h"

#include <algorithm>
#include <set>

#include "src/catalogue/clock_text.h"

namespace hw::catalogue {
namespace {

constexpr double money_max = 1e6;
constexpr double set_up_hours_max = 24;
constexpr double crew_hours_max = 1000;

// Two days, the second not before the first.
struct DaySpan {
  LocalDate from;
  LocalDate until;
};

DaySpan read_span(TomlTable& table) {
  const DaySpan span{table.take("from", parse_local_date(table.text("from"))),
                     table.take("until", parse_local_date(table.text("until")))};
  if (span.until < span.from) {
    table.mistake("until", fmt::format("{} is before {}; it is the last day", print(span.until), print(span.from)));
  }
  return span;
}

std::optional<std::string> text_if_there(TomlTable& table, std::string_view field) {
  return table.has(field) ? std::optional{table.text(field)} : std::nullopt;
}

StopSetUp read_set_up(TomlTable& table, StopSetUp fallback) {
  return {amount_or(table, "hours", fallback.hours, set_up_hours_max),
          amount_or(table, "cost", fallback.cost, money_max)};
}

std::string read_currency(TomlTable& table, const std::string& fallback) {
  std::string currency = table.text_or("currency", fallback);
  const auto is_capital = [](char c) { return c >= 'A' && c <= 'Z'; };
  if (currency.size() != 3 || !std::all_of(currency.begin(), currency.end(), is_capital)) {
    table.mistake("currency", "it is three capital letters of ISO 4217, as \"EUR\"");
  }
  return currency;
}

OutsideVisit read_outside_visit(TomlTable& table) {
  return {amount_or(table, "hours", 0, set_up_hours_max), amount_or(table, "cost", 0, money_max)};
}

Stopping read_prices(TomlTable& table) {
  Stopping out;
  out.currency = read_currency(table, out.currency);
  out.standing_per_hour = amount_or(table, "standing_per_hour", out.standing_per_hour, money_max);
  out.labour_per_hour = amount_or(table, "labour_per_hour", out.labour_per_hour, money_max);
  out.overtime_per_hour = amount_or(table, "overtime_per_hour", out.overtime_per_hour, money_max);
  out.moving = amount_or(table, "moving", out.moving, money_max);
  if (table.has("outside_visit")) out.outside_visit = table.one("outside_visit", read_outside_visit);
  const auto set_up = [&](std::string_view field, StopSetUp& into) {
    if (table.has(field)) into = table.one(field, [&](TomlTable& one) { return read_set_up(one, into); });
  };
  set_up("powered_at_rest", out.powered_at_rest);
  set_up("isolated", out.isolated);
  if (out.isolated.hours < out.powered_at_rest.hours || out.isolated.cost < out.powered_at_rest.cost) {
    table.mistake("isolated", "to isolate takes and costs at least what powered_at_rest does");
  }
  return out;
}

CrewHours read_crew_hours(TomlTable& table) {
  CrewHours hours;
  hours.weekdays = table.wholes("weekdays");
  const auto is_weekday = [](int day) { return day >= 1 && day <= 7; };
  if (!std::all_of(hours.weekdays.begin(), hours.weekdays.end(), is_weekday)) {
    table.mistake("weekdays", "they are 1 (Monday) to 7 (Sunday)");
  }
  hours.shift = table.text("shift");
  hours.hours = table.number("hours");
  if (!(hours.hours >= 0 && hours.hours <= crew_hours_max)) table.mistake("hours", "it is 0 to 1,000 hours");
  hours.overtime = amount_or(table, "overtime", 0, crew_hours_max);
  hours.premium_per_hour = amount_or(table, "premium_per_hour", 0, money_max);
  return hours;
}

// Each weekday of a shift once, or nobody knows which of two rows counts.
void check_hours_once(TomlTable& table, const Crew& crew) {
  std::set<std::pair<int, std::string_view>> seen;
  for (const CrewHours& hours : crew.hours) {
    for (const int day : hours.weekdays) {
      if (seen.emplace(day, hours.shift).second) continue;
      table.mistake("hours", fmt::format("weekday {} of the shift \"{}\" stands twice", day, hours.shift));
    }
  }
}

Crew read_crew(TomlTable& table) {
  Crew crew{table.take("skill", parse_skill(table.text("skill"))), table.each("hours", read_crew_hours)};
  check_hours_once(table, crew);
  return crew;
}

Absence read_absence(TomlTable& table) {
  Absence absence;
  if (table.has("skill") == table.has("person")) table.mistake("skill", "name either a skill or a person");
  if (table.has("skill")) absence.skill = table.take("skill", parse_skill(table.text("skill")));
  absence.person = text_if_there(table, "person");
  const DaySpan span = read_span(table);
  absence.from = span.from;
  absence.until = span.until;
  absence.why = table.text("why");
  return absence;
}

Blackout read_blackout(TomlTable& table) {
  Blackout blackout;
  if (table.has("machine") == table.has("cell")) table.mistake("machine", "name either a machine or a cell");
  blackout.machine = text_if_there(table, "machine");
  blackout.cell = text_if_there(table, "cell");
  const DaySpan span = read_span(table);
  blackout.from = span.from;
  blackout.until = span.until;
  blackout.why = table.text("why");
  return blackout;
}

PartsAwaited read_parts_awaited(TomlTable& table) {
  return {table.text("machine"), table.text("task"), table.take("on", parse_local_date(table.text("on")))};
}

StoresRules read_stores(TomlTable& table) {
  StoresRules rules;
  rules.wanted = table.number_or("wanted", rules.wanted);
  if (!(rules.wanted >= 0.5 && rules.wanted <= 0.9999)) table.mistake("wanted", "it is a chance from 0.5 to 0.9999");
  rules.holding_per_year = amount_or(table, "holding_per_year", rules.holding_per_year, 2);
  rules.order_cost = amount_or(table, "order_cost", rules.order_cost, 1e5);
  rules.line_cost = amount_or(table, "line_cost", rules.line_cost, 1e5);
  rules.rush_cost = amount_or(table, "rush_cost", rules.rush_cost, 1e5);
  rules.missing_per_day = amount_or(table, "missing_per_day", rules.missing_per_day, 1e5);
  rules.noon_minute = table.take("noon", parse_clock(table.text_or("noon", "12:00")));
  return rules;
}

template <class Things, class KeyOf>
bool has_key(const Things& things, std::string_view key, KeyOf key_of) {
  return std::any_of(things.begin(), things.end(), [&](const auto& one) { return key_of(one) == key; });
}

void check_crews(TomlTable& table, const Shop& shop) {
  for (const Crew& crew : shop.stopping.crews) {
    for (const CrewHours& hours : crew.hours) {
      const bool is_whole_day = shop.calendar.shifts.empty() && hours.shift.empty();
      const auto name_of = [](const Shift& one) { return one.name; };
      if (is_whole_day || has_key(shop.calendar.shifts, hours.shift, name_of)) continue;
      table.mistake("crew", fmt::format("{}: there is no shift \"{}\"", word_of(crew.skill), hours.shift));
    }
  }
}

// A plant without shifts has one of 24 h a day.
void check_outside_visit(TomlTable& table, const Shop& shop) {
  if (!shop.stopping.outside_visit || shop.calendar.shifts.empty()) return;
  constexpr int day_minutes = 24 * 60;
  int longest = 0;
  for (const Shift& shift : shop.calendar.shifts) {
    const int length = shift.ends_minute - shift.begins_minute;
    longest = std::max(longest, length > 0 ? length : length + day_minutes);
  }
  const double hours = shop.stopping.outside_visit->hours;
  if (hours * 60 <= longest) return;
  table.mistake("stopping", fmt::format("outside_visit.hours: {} is longer than any shift", hours));
}

void check_persons(TomlTable& table, const Shop& shop) {
  for (const Absence& absence : shop.stopping.absences) {
    const auto name_of = [](const Person& one) { return one.name; };
    if (!absence.person || has_key(shop.people, *absence.person, name_of)) continue;
    table.mistake("absence", fmt::format("there is no person \"{}\"", *absence.person));
  }
}

void check_machines(TomlTable& table, const Shop& shop) {
  const auto key_of = [](const auto& one) { return one.key; };
  for (const Blackout& one : shop.stopping.blackouts) {
    if (one.machine && !has_key(shop.machines, *one.machine, key_of)) {
      table.mistake("blackout", fmt::format("there is no machine \"{}\"", *one.machine));
    }
    if (one.cell && !has_key(shop.cells, *one.cell, key_of)) {
      table.mistake("blackout", fmt::format("there is no cell \"{}\"", *one.cell));
    }
  }
  for (const PartsAwaited& one : shop.stopping.parts_awaited) {
    if (has_key(shop.machines, one.machine, key_of)) continue;
    table.mistake("parts_awaited", fmt::format("there is no machine \"{}\"", one.machine));
  }
}

}  // namespace

double amount_or(TomlTable& table, std::string_view field, double fallback, double most) {
  const double amount = table.number_or(field, fallback);
  if (!(amount >= 0 && amount <= most)) table.mistake(field, fmt::format("it is a number from 0 to {:.0f}", most));
  return amount;
}

Stopping read_stopping(TomlTable& shop) {
  Stopping out;
  if (shop.has("stopping")) out = shop.one("stopping", read_prices);
  out.crews = shop.each("crew", read_crew);
  out.absences = shop.each("absence", read_absence);
  out.blackouts = shop.each("blackout", read_blackout);
  out.parts_awaited = shop.each("parts_awaited", read_parts_awaited);
  if (shop.has("stores")) out.stores = shop.one("stores", read_stores);
  return out;
}

void check_stopping(TomlTable& table, const Shop& shop) {
  std::set<Skill> seen;
  for (const Crew& crew : shop.stopping.crews) {
    if (!seen.insert(crew.skill).second) table.mistake("crew", fmt::format("\"{}\" stands twice", word_of(crew.skill)));
  }
  check_crews(table, shop);
  check_outside_visit(table, shop);
  check_persons(table, shop);
  check_machines(table, shop);
}

}  // namespace hw::catalogue
