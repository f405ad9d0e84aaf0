#include <map>

#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/terminal/hours_report.h"

namespace hw::terminal {
namespace {

using counters::CounterKind;
using counters::Role;
using counters::Tally;
using formats::ExactNumber;
using formats::OrNull;

struct CounterHours {
  ExactNumber seconds, false_seconds, unknown_seconds;
  std::uint64_t starts = 0;
  std::optional<std::map<std::string, ExactNumber>> by_day;
};
BOOST_DESCRIBE_STRUCT(CounterHours, (), (seconds, false_seconds, unknown_seconds, starts, by_day))

struct CountersHours {
  OrNull<CounterHours> connected, powered, operating, spindle, feeding, axis, cutting;
};
BOOST_DESCRIBE_STRUCT(CountersHours, (), (connected, powered, operating, spindle, feeding, axis, cutting))

struct ItemHours {
  std::string type;
  ExactNumber seconds, unknown_seconds;
  std::optional<double> revolutions, travel_m;
};
BOOST_DESCRIBE_STRUCT(ItemHours, (), (type, seconds, unknown_seconds, revolutions, travel_m))

struct OwnCounterReadings {
  OrNull<double> first, last;
  double rises = 0;
  std::uint64_t falls = 0;
};
BOOST_DESCRIBE_STRUCT(OwnCounterReadings, (), (first, last, rises, falls))

struct GapBetweenDocuments {
  std::string file;
  std::uint64_t sequence_begin = 0, sequence_end = 0;
  OrNull<Instant> from, to;
};
BOOST_DESCRIBE_STRUCT(GapBetweenDocuments, (), (file, sequence_begin, sequence_end, from, to))

struct AgentRestart {
  std::string file;
  std::uint64_t instance_before = 0, instance_after = 0;
  OrNull<Instant> at;
};
BOOST_DESCRIBE_STRUCT(AgentRestart, (), (file, instance_before, instance_after, at))

struct OneMachine {
  std::string machine;
  Instant from, to;
  ExactNumber seconds;
  CountersHours counters;
  std::map<std::string, ItemHours> items;
  std::map<std::string, OwnCounterReadings> own_counters;
  std::vector<GapBetweenDocuments> gaps;
  std::vector<AgentRestart> restarts;
  std::vector<std::string> notes;
};
BOOST_DESCRIBE_STRUCT(OneMachine, (),
                      (machine, from, to, seconds, counters, items, own_counters, gaps, restarts, notes))

struct AllMachines {
  std::vector<OneMachine> machines;
  std::uint64_t observations = 0, bad_lines = 0;
};
BOOST_DESCRIBE_STRUCT(AllMachines, (), (machines, observations, bad_lines))

ExactNumber seconds_of(std::int64_t ns) { return {print_seconds(Duration{ns})}; }

OrNull<CounterHours> counter_hours(const MachineHours& machine, CounterKind kind, bool by_day) {
  const auto slot = static_cast<std::size_t>(kind);
  const std::optional<Tally>& tally = machine.report.counters[slot];
  if (!tally) return {};
  CounterHours hours{seconds_of(tally->counted_ns()),
                     seconds_of(tally->false_ns()),
                     seconds_of(tally->unknown_ns()),
                     tally->starts,
                     {}};
  if (by_day) {
    auto& days = hours.by_day.emplace();
    for (const auto& [date, tallies] : machine.report.days) days[print(date)] = seconds_of(tallies[slot].counted_ns());
  }
  return hours;
}

CountersHours counters_hours(const MachineHours& machine, bool by_day) {
  const auto of = [&](CounterKind kind) { return counter_hours(machine, kind, by_day); };
  return {of(CounterKind::connected), of(CounterKind::powered), of(CounterKind::operating), of(CounterKind::spindle),
          of(CounterKind::feeding),   of(CounterKind::axis),    of(CounterKind::cutting)};
}

ItemHours item_hours(const MachineHours& machine, const counters::ItemCount& count) {
  const counters::Item& item = machine.model->items[count.item];
  ItemHours hours{item.type, seconds_of(count.tally.counted_ns()), seconds_of(count.tally.unknown_ns()), {}, {}};
  if (item.role == Role::spindle_speed || item.role == Role::angular_velocity) hours.revolutions = count.tally.amount;
  const bool feeds = item.role == Role::path_feed || item.role == Role::path_rapid || item.role == Role::axis_feed;
  if (feeds) hours.travel_m = count.tally.amount;
  return hours;
}

OneMachine one_machine(const MachineHours& hours, const HoursReport& report) {
  OneMachine machine;
  machine.machine = hours.model->name;
  machine.from = hours.report.from;
  machine.to = hours.report.to;
  machine.seconds = seconds_of(hours.report.window_ns());
  machine.counters = counters_hours(hours, report.by_day);
  for (const auto& count : hours.report.items) machine.items[count.label] = item_hours(hours, count);
  for (const auto& [item, label, own] : hours.report.own_counters) {
    machine.own_counters[label] = {formats::or_null(own.first), formats::or_null(own.last), own.rises, own.falls};
  }
  for (const feeds::Gap& gap : hours.run->gaps) {
    machine.gaps.push_back(
        {gap.file, gap.sequence_begin, gap.sequence_end, formats::or_null(gap.from), formats::or_null(gap.to)});
  }
  for (const feeds::Restart& restart : hours.run->restarts) {
    machine.restarts.push_back(
        {restart.file, restart.instance_before, restart.instance_after, formats::or_null(restart.at)});
  }
  for (const feeds::Note& note : report.notes) {
    if (note.machine.empty() || note.machine == hours.model->name) machine.notes.push_back(note.text);
  }
  return machine;
}

}  // namespace

std::string print_hours_json(const HoursReport& report) {
  AllMachines all;
  for (const MachineHours& machine : report.machines) all.machines.push_back(one_machine(machine, report));
  all.observations = report.observations;
  all.bad_lines = report.bad_lines;
  return formats::print_json(all) + "\n";
}

}  // namespace hw::terminal
