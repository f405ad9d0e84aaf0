#pragma once
// The cheapest days for one recurring thing on its own: a shortest path over days.
//
// cost(d1 < d2 < ... < dk) = first[d1] + node[d1] + gap[d2 - d1] + node[d2] + ... + node[dk] + last[dk], or `never` for
// no day at all. Exact by dynamic programming; days * gaps steps, a few microseconds. The same bits on every computer:
// only minima and sums of two numbers.

#include <span>
#include <vector>

namespace hw::plan {

// Number is float or double. All costs are finite; what must not be has a huge one.
template <class Number>
struct RouteTable {
  int days = 0;
  int gap_min = 1;                // 1 or more
  int gap_max = 0;                // less than `days`; below gap_min: one day at most
  const Number* first = nullptr;  // by day
  const Number* gap = nullptr;    // by gap, from 0 to gap_max
  const Number* last = nullptr;   // by day
  Number never = 0;
};

// Room that route functions work in, kept so that they need not ask for memory.
template <class Number>
struct RouteRoom {
  std::vector<Number> arrive;  // the cheapest cost of coming to that day, without its node
  std::vector<Number> leave;   // with it
};

// `node`: what the thing costs on each day. `days` becomes the chosen days, rising. Gives back their cost.
float cheapest_route(const RouteTable<float>& table, const float* node, RouteRoom<float>& room, std::vector<int>& days);
double cheapest_route(const RouteTable<double>& table, const double* node, RouteRoom<double>& room,
                      std::vector<int>& days);

// One of a few places in time; what it stands for is the caller's.
struct RouteNode {
  int day = 0;
  int slot = 0;
  double first = 0;  // what a route costs that begins here
  double node = 0;   // what being here costs
  double leave = 0;  // found: the cheapest cost of a route that ends here
  int before = -1;   // and the node before on it; -1: none
};

// The cheapest route over nodes by rising day, of which it takes at most one a day; `table.first` is not read. `slots`
// becomes what its nodes stand for. Gives back its cost.
double cheapest_route_among(const RouteTable<double>& table, std::span<RouteNode> nodes, std::vector<int>& slots);

}  // namespace hw::plan
