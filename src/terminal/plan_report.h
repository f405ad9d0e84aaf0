#pragma once
// What `hourwright plan` tells of a plan.

#include <optional>
#include <string>

#include "libs/formats/json_types.h"

namespace hw::terminal {

// What people's rules cost on the same instance; null where a rule finds no place for a task.
struct PlanRules {
  formats::OrNull<double> due_day;
  formats::OrNull<double> with_next_14_days;
  formats::OrNull<double> monthly_service;
};
BOOST_DESCRIBE_STRUCT(PlanRules, (), (due_day, with_next_14_days, monthly_service))

struct PlanReport {
  double cost = 0;
  double bound = 0;
  double gap = 0;  // (cost - bound) / cost
  double seconds = 0;
  std::size_t stops = 0;
  std::optional<double> travel;  // of the cost; nothing where no crew travels
  PlanRules rules;
};
BOOST_DESCRIBE_STRUCT(PlanReport, (), (cost, bound, gap, seconds, stops, travel, rules))

std::string print_json(const PlanReport& report);   // one line
std::string print_table(const PlanReport& report);  // for people

}  // namespace hw::terminal
