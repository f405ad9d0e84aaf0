#include <fmt/format.h>

#include "src/terminal/hours_report.h"

namespace hw::terminal {
namespace {

using counters::CounterKind;
using counters::Tally;

double hours_of(std::int64_t ns) { return Duration{ns}.as_hours(); }

std::string definition_of(CounterKind kind, const HoursReport& report) {
  std::string definition(counters::definition_of(kind));
  if (kind == CounterKind::cutting && report.load_above_percent) {
    definition += fmt::format("; spindle load above {} %", *report.load_above_percent);
  }
  return definition;
}

std::string counter_row(CounterKind kind, const std::optional<Tally>& tally, const HoursReport& report) {
  if (!tally)
    return fmt::format("  {:<10} {:>11} {:>11} {:>7}  the data items are missing\n", word_of(kind), "-", "-", "-");
  return fmt::format("  {:<10} {:>11.4f} {:>11.4f} {:>7}  {}\n", word_of(kind), hours_of(tally->counted_ns()),
                     hours_of(tally->unknown_ns()), tally->starts, definition_of(kind, report));
}

std::string counters_table(const counters::Report& machine, const HoursReport& report) {
  std::string text =
      fmt::format("\n  {:<10} {:>11} {:>11} {:>7}  {}\n", "counter", "hours", "unknown h", "starts", "what is counted");
  for (std::size_t slot = 0; slot < counters::machine_counters; ++slot) {
    text += counter_row(static_cast<CounterKind>(slot), machine.counters[slot], report);
  }
  return text;
}

std::string items_table(const MachineHours& machine) {
  if (machine.report.items.empty()) return "";
  std::string text = fmt::format("\n  {:<20} {:>11} {:>11}  {}\n", "data item", "hours", "unknown h", "type");
  for (const auto& [item, label, tally] : machine.report.items) {
    text += fmt::format("  {:<20} {:>11.4f} {:>11.4f}  {}\n", label, hours_of(tally.counted_ns()),
                        hours_of(tally.unknown_ns()), machine.model->items[item].type);
  }
  return text;
}

std::string reading(const std::optional<double>& seconds) {
  return seconds ? fmt::format("{:.4f}", *seconds / 3600) : std::string("-");
}

std::string own_counters_table(const counters::Report& report) {
  if (report.own_counters.empty()) return "";
  std::string text = fmt::format("\n  {:<20} {:>11} {:>11} {:>11} {:>7}  in hours; often counts holds and stops too\n",
                                 "control's own", "first", "last", "rose by", "falls");
  for (const auto& [item, label, own] : report.own_counters) {
    text += fmt::format("  {:<20} {:>11} {:>11} {:>11.4f} {:>7}\n", label, reading(own.first), reading(own.last),
                        own.rises / 3600, own.falls);
  }
  return text;
}

std::string days_table(const counters::Report& report) {
  std::string text = fmt::format("\n  {:<10}", "day, hours");
  for (std::size_t slot = 0; slot < counters::machine_counters; ++slot) {
    text += fmt::format(" {:>10}", word_of(static_cast<CounterKind>(slot)));
  }
  text += "\n";
  for (const auto& [date, tallies] : report.days) {
    text += fmt::format("  {:<10}", print(date));
    for (std::size_t slot = 0; slot < counters::machine_counters; ++slot) {
      text += report.counters[slot] ? fmt::format(" {:>10.4f}", hours_of(tallies[slot].counted_ns()))
                                    : fmt::format(" {:>10}", "-");
    }
    text += "\n";
  }
  return text;
}

std::string remarks(const MachineHours& machine, const HoursReport& report) {
  std::string text;
  for (const feeds::Gap& gap : machine.run->gaps) {
    text +=
        fmt::format("  lost before {}: {} observations, {} to {}\n", gap.file, gap.sequence_end - gap.sequence_begin,
                    gap.from ? print(*gap.from) : "?", gap.to ? print(*gap.to) : "?");
  }
  for (const feeds::Restart& restart : machine.run->restarts) {
    text += fmt::format("  the agent was restarted before {}{}\n", restart.file,
                        restart.at ? ", at " + print(*restart.at) : "");
  }
  for (const feeds::Note& note : report.notes) {
    if (note.machine.empty() || note.machine == machine.model->name) text += fmt::format("  {}\n", note.text);
  }
  return text.empty() ? text : "\n" + text;
}

std::string machine_text(const MachineHours& machine, const HoursReport& report) {
  const counters::Report& counted = machine.report;
  std::string text = fmt::format("{}\n  {} to {}: {:.4f} h\n", machine.model->name, print(counted.from),
                                 print(counted.to), hours_of(counted.window_ns()));
  text += counters_table(counted, report);
  text += items_table(machine);
  text += own_counters_table(counted);
  if (report.by_day) text += days_table(counted);
  return text + remarks(machine, report) + "\n";
}

}  // namespace

std::string print_hours_tables(const HoursReport& report) {
  std::string text;
  for (const MachineHours& machine : report.machines) text += machine_text(machine, report);
  text += fmt::format("{} observations read", report.observations);
  if (report.bad_lines > 0) text += fmt::format(", {} lines could not be read", report.bad_lines);
  return text + "\n";
}

}  // namespace hw::terminal
