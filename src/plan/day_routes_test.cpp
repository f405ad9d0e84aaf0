#include "src/plan/day_routes.h"

#include <cmath>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"

namespace hw::plan {
namespace {

struct RouteCase {
  std::vector<double> first, gap, last, node;
  RouteTable<double> table;
};

RouteCase chance_case(std::uint64_t seed) {
  numerics::Random random(seed);
  RouteCase one;
  const int days = random.whole_between(1, 12);
  const int gap_max = random.whole_between(0, days - 1);
  for (int day = 0; day < days; ++day) {
    one.first.push_back(random.between(0, 50));
    one.last.push_back(random.between(0, 50));
    one.node.push_back(random.between(0, 10));
  }
  for (int gap = 0; gap <= gap_max; ++gap) one.gap.push_back(random.between(0, 20));
  one.table = {.days = days,
               .gap_min = random.whole_between(1, 3),
               .gap_max = gap_max,
               .first = one.first.data(),
               .gap = one.gap.data(),
               .last = one.last.data(),
               .never = random.between(20, 90)};
  return one;
}

// What the given days cost without their nodes.
double timing_cost(const RouteTable<double>& table, const std::vector<int>& days) {
  if (days.empty()) return table.never;
  double cost = table.first[days.front()] + table.last[days.back()];
  for (std::size_t i = 1; i < days.size(); ++i) cost += table.gap[days[i] - days[i - 1]];
  return cost;
}

// Every set of days there is.
double cheapest_by_trying_all(const RouteCase& one) {
  double best = one.table.never;
  for (unsigned set = 1; set < 1U << one.table.days; ++set) {
    std::vector<int> days;
    double cost = 0;
    for (int day = 0; day < one.table.days; ++day) {
      if ((set >> day & 1U) == 0) continue;
      days.push_back(day);
      cost += one.node[static_cast<std::size_t>(day)];
    }
    bool is_allowed = true;
    for (std::size_t i = 1; i < days.size(); ++i) {
      const int gap = days[i] - days[i - 1];
      is_allowed = is_allowed && gap >= one.table.gap_min && gap <= one.table.gap_max;
    }
    if (is_allowed) best = std::min(best, cost + timing_cost(one.table, days));
  }
  return best;
}

TEST(DayRoutes, Property_NoOtherDaysCostLess) {
  RouteRoom<double> room;
  std::vector<int> days;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE(seed);
    const RouteCase one = chance_case(seed);
    const double cost = cheapest_route(one.table, one.node.data(), room, days);
    EXPECT_NEAR(cost, cheapest_by_trying_all(one), 1e-9);
    double paid = timing_cost(one.table, days);
    for (const int day : days) paid += one.node[static_cast<std::size_t>(day)];
    EXPECT_NEAR(cost, paid, 1e-9);
  }
}

// Every day twice, the second time dearer or cheaper: of one day one node at most is taken.
TEST(DayRoutes, Property_AmongNodesOfAllDaysTheCheapestIsTheSame) {
  std::vector<int> days;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE(seed);
    const RouteCase one = chance_case(seed);
    std::vector<RouteNode> nodes;
    for (int day = 0; day < one.table.days; ++day) {
      const auto d = static_cast<std::size_t>(day);
      nodes.push_back({day, day, one.first[d], one.node[d]});
      nodes.push_back({day, day, one.first[d], one.node[d] + 1});
      if (day % 2 == 0) std::swap(nodes.end()[-1], nodes.end()[-2]);
    }
    const double cost = cheapest_route_among(one.table, nodes, days);
    EXPECT_NEAR(cost, cheapest_by_trying_all(one), 1e-9);
    double paid = timing_cost(one.table, days);
    for (const int day : days) paid += one.node[static_cast<std::size_t>(day)];
    EXPECT_NEAR(cost, paid, 1e-9);
  }
}

TEST(DayRoutes, InSinglePrecisionAreTheSameUpToRounding) {
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    const RouteCase one = chance_case(seed);
    const std::vector<float> first(one.first.begin(), one.first.end());
    const std::vector<float> gap(one.gap.begin(), one.gap.end());
    const std::vector<float> last(one.last.begin(), one.last.end());
    const std::vector<float> node(one.node.begin(), one.node.end());
    RouteRoom<float> room;
    std::vector<int> days;
    const RouteTable<float> table{.days = one.table.days,
                                  .gap_min = one.table.gap_min,
                                  .gap_max = one.table.gap_max,
                                  .first = first.data(),
                                  .gap = gap.data(),
                                  .last = last.data(),
                                  .never = static_cast<float>(one.table.never)};
    EXPECT_NEAR(static_cast<double>(cheapest_route(table, node.data(), room, days)), cheapest_by_trying_all(one), 1e-4);
  }
}

}  // namespace
}  // namespace hw::plan
