#include "src/web/metrics.h"

#include <iterator>

#include <fmt/format.h>

#include "src/service/use_cases.h"

namespace hw::web {
namespace {

// A label's value: backslash, quote and line feed are escaped.
std::string escaped(std::string_view text) {
  std::string out;
  for (char c : text) {
    if (c == '\\' || c == '"') out += '\\';
    if (c == '\n') {
      out += "\\n";
    } else {
      out += c;
    }
  }
  return out;
}

void print_head(std::string& out, std::string_view name, std::string_view unit, std::string_view help) {
  fmt::format_to(std::back_inserter(out), "# TYPE {} gauge\n", name);
  if (!unit.empty()) fmt::format_to(std::back_inserter(out), "# UNIT {} {}\n", name, unit);
  fmt::format_to(std::back_inserter(out), "# HELP {} {}\n", name, help);
}

using CounterValue = double service::CounterView::*;

void print_counters(std::string& out, const service::FloorView& floor, std::string_view name, CounterValue value) {
  for (const auto& machine : floor.machines) {
    for (const auto& counter : machine.counters) {
      fmt::format_to(std::back_inserter(out), "{}{{machine=\"{}\",counter=\"{}\"}} {}\n", name, escaped(machine.key),
                     escaped(counter.key), counter.*value);
    }
  }
}

void print_tasks(std::string& out, const service::FloorMachineView& machine) {
  const std::pair<std::string_view, int> states[] = {{"in hand", machine.tally.in_hand},
                                                     {"coming", machine.tally.coming},
                                                     {"due", machine.tally.due},
                                                     {"overdue", machine.tally.overdue}};
  for (const auto& [state, count] : states) {
    fmt::format_to(std::back_inserter(out), "hourwright_tasks{{machine=\"{}\",state=\"{}\"}} {}\n",
                   escaped(machine.key), state, count);
  }
}

// Nothing where no good copy is known: an age that nobody knows is not zero.
void print_copies(std::string& out, const copies::CopyState& state, Instant now) {
  print_head(out, "hourwright_copy_age_seconds", "seconds", "Time since the last good copy of the shop was made.");
  if (state.last_good) {
    fmt::format_to(std::back_inserter(out), "hourwright_copy_age_seconds {:.0f}\n",
                   (now - state.last_good->made_at).as_seconds());
  }
  print_head(out, "hourwright_copy_bytes", "bytes", "Size of the last good copy.");
  if (state.last_good) {
    fmt::format_to(std::back_inserter(out), "hourwright_copy_bytes {}\n", state.last_good->bytes);
  }
  print_head(out, "hourwright_copying", "", "1 where nobody has to see to the copies.");
  fmt::format_to(std::back_inserter(out), "hourwright_copying {}\n",
                 concern_of(state, now) == copies::Concern::none ? 1 : 0);
}

void print_upward(std::string& out, const service::UpwardState& state) {
  print_head(out, "hourwright_upward_waiting_rows", "", "Rows that have changed and that the group has not been told.");
  fmt::format_to(std::back_inserter(out), "hourwright_upward_waiting_rows {}\n", state.waiting_rows);
  print_head(out, "hourwright_upward_going", "", "1 where the last try to tell the group came to its end.");
  fmt::format_to(std::back_inserter(out), "hourwright_upward_going {}\n", state.trouble.empty() ? 1 : 0);
}

}  // namespace

std::string metrics_of(const service::OpenShop& shop, Instant now) {
  const service::FloorView floor = show_floor(shop, now);
  std::string out;
  print_head(out, "hourwright_counter_hours", "hours", "Total of a counter: counted, filled and adjusted.");
  print_counters(out, floor, "hourwright_counter_hours", &service::CounterView::total);
  print_head(out, "hourwright_unknown_hours", "hours",
             "Time in which nobody knows what the counter would have counted.");
  print_counters(out, floor, "hourwright_unknown_hours", &service::CounterView::unknown_h);
  print_head(out, "hourwright_feed_live", "", "1 where the machine's feed is live.");
  for (const auto& machine : floor.machines) {
    fmt::format_to(std::back_inserter(out), "hourwright_feed_live{{machine=\"{}\"}} {}\n", escaped(machine.key),
                   machine.feed.state == "live" ? 1 : 0);
  }
  print_head(out, "hourwright_tasks", "", "Tasks by state.");
  for (const auto& machine : floor.machines) print_tasks(out, machine);
  print_head(out, "hourwright_storing", "", "1 where what was counted could be stored the last time.");
  fmt::format_to(std::back_inserter(out), "hourwright_storing {}\n", shop.storing_trouble().empty() ? 1 : 0);
  print_copies(out, shop.copies(), now);
  if (const auto upward = shop.upward(); upward.is_edge) print_upward(out, upward);
  return out + "# EOF\n";
}

}  // namespace hw::web
