#include "src/service/month_hours.h"

#include <algorithm>

#include "src/service/counter_days.h"

namespace hw::service {
namespace {

constexpr std::string_view operating_counter = "operating";
constexpr std::string_view powered_counter = "powered";

double counted_on(const DayRecord& day, std::string_view unit) {
  return unit == "h" ? Duration{day.counted_ns + day.filled_ns}.as_hours() : day.amount;
}

// Filled time is part of the unknown time; the rest nobody knows.
double unknown_on(const DayRecord& day) { return std::max(0.0, Duration{day.unknown_ns - day.filled_ns}.as_hours()); }

// Of one counter: its days from the span's first to today.
using DaysOfCounter = std::map<LocalDate, DayRecord>;

Result<DaysOfCounter> days_since(const OpenShop& shop, const OpenMachine& machine, const std::string& counter,
                                 LocalDate first, Instant now) {
  const LocalDate today = shop.calendar().zone.date_of(now);
  HW_TAKE(days, days_of(shop, machine.record.machine.key, counter, {first, today}, now));
  DaysOfCounter by_day;
  for (const DayRecord& day : days) by_day.emplace(day.on, day);
  return by_day;
}

// What was added to a counter on days from `first` on, and by people's settlements from that day's beginning on.
double added_since(const OpenShop& shop, const OpenMachine& machine, const std::string& counter,
                   const DaysOfCounter& days, LocalDate first) {
  const auto key = counters::parse_counter_key(counter);
  const std::string_view unit = key ? counters::unit_of(key->kind) : "h";
  double sum = 0;
  for (auto day = days.lower_bound(first); day != days.end(); ++day) sum += counted_on(day->second, unit);
  const Instant from = shop.calendar().zone.begin_of(first);
  for (const Adjustment& one : machine.adjustments) {
    if (!one.is_start && one.counter == counter && one.at >= from) sum += one.amount;
  }
  return sum;
}

DayHours hours_on(const OpenShop& shop, const MonthSpan& span, LocalDate on, const DaysOfCounter& operating,
                  const DaysOfCounter& powered) {
  const double whole_h = month::hours_of(day_in(shop.calendar(), span, on));
  const auto fill = [&](const DaysOfCounter& days, double& counted_h, double& unknown_h) {
    const auto day = days.find(on);
    counted_h = day == days.end() ? 0 : counted_on(day->second, "h");
    unknown_h = day == days.end() ? whole_h : unknown_on(day->second);
  };
  DayHours hours{.on = on};
  fill(operating, hours.operating_h, hours.unknown_h);
  fill(powered, hours.powered_h, hours.powered_unknown_h);
  return hours;
}

}  // namespace

Result<MonthHours> hours_in(const OpenShop& shop, const OpenMachine& machine, const MonthSpan& span, Instant now) {
  MonthHours out;
  {
    const auto lock = shop.look();
    out.at_end = totals_of(machine, now);
  }
  out.at_begin = out.at_end;
  std::map<std::string, DaysOfCounter> days;
  days[std::string{operating_counter}];
  days[std::string{powered_counter}];
  for (const auto& [counter, total] : out.at_end) days[counter];
  for (auto& [counter, of_counter] : days) {
    HW_TAKE(read, days_since(shop, machine, counter, span.first, now));
    of_counter = std::move(read);
  }
  const auto lock = shop.look();
  for (auto& [counter, total] : out.at_end) {
    const double now_total = total;
    out.at_begin[counter] = now_total - added_since(shop, machine, counter, days[counter], span.first);
    if (span.is_over) total = now_total - added_since(shop, machine, counter, days[counter], span.last + 1);
  }
  for (LocalDate on = span.first; on <= span.last; ++on) {
    out.days.push_back(
        hours_on(shop, span, on, days[std::string{operating_counter}], days[std::string{powered_counter}]));
  }
  return out;
}

CounterTotals as_counted_now(const OpenMachine& machine, const Entry& entry) {
  CounterTotals totals = entry.counters;
  for (auto& [counter, total] : totals) total += start_moved_since(machine, counter, entry.happened_at);
  return totals;
}

}  // namespace hw::service
