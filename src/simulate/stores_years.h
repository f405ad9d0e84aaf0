#pragma once
// Years of stores played day by day under a rule of ordering, and what that comes to.
//
// Each morning deliveries come and are given to whoever is still owed; then orders are made; then stops and failures
// take what they need. A need that does not get all of its quantity at once is not met; the rest is owed to it.

#include <string>
#include <vector>

#include "src/simulate/ordering_rules.h"

namespace hw::simulate {

struct StoresOutcome {
  int needs = 0, needs_met = 0;  // one part of one stop or failure each; met: all of it at once
  int stops = 0, stops_met = 0;  // whose kit was complete on the day
  int orders = 0, lines = 0;
  double stock_value = 0;  // average of the days, at prices
  double cost = 0;         // a year: holding, ordering, missing
  double service = 0;      // needs_met / needs
  double service_se = 0;   // standard error of it, from the years
  // All pieces, from the first day on: nothing is lost.
  double begun_with = 0, received = 0, taken = 0, left = 0;
};

struct StoresPlay {
  StoresPlan plan;
  int years = 5;          // that count, at least 2
  int days_before = 180;  // that do not
  OrderCosts costs;
};

StoresOutcome play_stores(const StoresPlay& play, const OrderingRule& rule);

// The table of docs/methods/stores.md: our rule, the two others as they are, and these with their levels raised or
// lowered until they serve as well as ours does.
struct ComparedRule {
  std::string name;
  double level = 0;  // the wanted chance; the number of everything; times mean use
  StoresOutcome outcome;
};
struct StoresComparison {
  double wanted = 0;
  ComparedRule ours;
  std::vector<ComparedRule> as_usual;
  std::vector<ComparedRule> as_good;  // the same, at our service
};
StoresComparison compare_rules(const StoresPlay& play, double wanted);

}  // namespace hw::simulate
