#pragma once
// What the command `condition` answers: charts, trends and crossings of readings from a table
// (docs/methods/condition.md). Each function is one of its subcommands; names in JSON are those of
// tests/published/t4_charts.json and t5_trend.json.

#include <optional>
#include <string>
#include <vector>

#include "src/condition/use_rate.h"
#include "src/terminal/command_line.h"

namespace hw::terminal {

// The options of all subcommands; each reads those that it has.
struct ConditionCall {
  std::string file = {};
  bool is_json = false;
  bool with_rules = false;
  bool through_origin = false;
  std::optional<double> lambda = {}, target = {}, sigma = {}, L = {}, k = {}, h = {};
  std::optional<double> limit = {}, d = {}, nu = {};
  double conf = 0.95;
  std::vector<double> at = {};
  std::vector<double> shifts = {};
  condition::Consumable consumable = condition::Consumable::other;
};

// Errors are bad_input with file, line and column, or wrong_usage for options that do not go together.
Answer chart_answer(const ConditionCall& call);
Answer ewma_answer(const ConditionCall& call);
Answer cusum_answer(const ConditionCall& call);
Answer trend_answer(const ConditionCall& call);
Answer crossing_answer(const ConditionCall& call);
Answer rate_answer(const ConditionCall& call);

// "3, 5, 8", or "none".
std::string print_points(const std::vector<std::size_t>& points);

}  // namespace hw::terminal
