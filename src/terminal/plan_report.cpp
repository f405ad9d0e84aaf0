#include "src/terminal/plan_report.h"

#include <fmt/format.h>

#include "libs/formats/json.h"

namespace hw::terminal {
namespace {

std::string print_rule(const char* name, const formats::OrNull<double>& cost, double planned) {
  if (!cost) return fmt::format("  {:<42} finds no place for every task\n", name);
  return fmt::format("  {:<42} {:>14.2f}   the plan saves {:.1f} %\n", name, *cost, 100 * (1 - planned / *cost));
}

}  // namespace

std::string print_json(const PlanReport& report) { return formats::print_json(report) + "\n"; }

std::string print_table(const PlanReport& report) {
  return fmt::format("cost {:.2f}, and no plan costs less than {:.2f} (gap {:.2f} %), {} stops, {:.1f} s\n",
                     report.cost, report.bound, 100 * report.gap, report.stops, report.seconds) +
         (report.travel ? fmt::format("of it for crews' travel {:.2f}\n", *report.travel) : std::string()) +
         "by rule instead:\n" + print_rule("each task on its due day", report.rules.due_day, report.cost) +
         print_rule("all due within 14 days at the first stop", report.rules.with_next_14_days, report.cost) +
         print_rule("a service day every four weeks", report.rules.monthly_service, report.cost);
}

}  // namespace hw::terminal
