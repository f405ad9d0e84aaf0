#include "src/plan/day_routes.h"

#include <algorithm>

#include "libs/values/assert.h"

// Compiled twice and chosen at the start of the program: eight numbers at a time where the processor can. Both give the
// same bits. Sanitizers cannot start with it.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_THREAD__) && \
    !defined(__SANITIZE_ADDRESS__)
#define HW_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define HW_WIDE
#endif

namespace hw::plan {
namespace {

template <class Number>
[[gnu::always_inline]] inline void reach_days(const RouteTable<Number>& table, const Number* node,
                                              Number* __restrict arrive, Number* __restrict leave) {
  for (int day = 0; day < table.days; ++day) arrive[day] = table.first[day];
  for (int day = 0; day < table.days; ++day) {
    const Number here = arrive[day] + node[day];
    leave[day] = here;
    const int gap_end = std::min(table.gap_max, table.days - 1 - day);
    const Number* __restrict gap = table.gap;
    Number* __restrict to = arrive + day;
    for (int step = table.gap_min; step <= gap_end; ++step) {
      const Number there = here + gap[step];
      to[step] = there < to[step] ? there : to[step];
    }
  }
}

HW_WIDE void reach(const RouteTable<float>& table, const float* node, float* arrive, float* leave) {
  reach_days(table, node, arrive, leave);
}

HW_WIDE void reach(const RouteTable<double>& table, const double* node, double* arrive, double* leave) {
  reach_days(table, node, arrive, leave);
}

// The day before `day` on the cheapest way to it; -1 where it is the first.
template <class Number>
int day_before(const RouteTable<Number>& table, const RouteRoom<Number>& room, int day) {
  const Number* arrive = room.arrive.data();
  const Number* leave = room.leave.data();
  for (int gap = table.gap_min; gap <= std::min(table.gap_max, day); ++gap) {
    if (leave[day - gap] + table.gap[gap] == arrive[day]) return day - gap;
  }
  HW_ASSERT(arrive[day] == table.first[day], "a day is come to from another or is the first");
  return -1;
}

template <class Number>
Number cheapest(const RouteTable<Number>& table, const Number* node, RouteRoom<Number>& room, std::vector<int>& days) {
  room.arrive.resize(static_cast<std::size_t>(table.days));
  room.leave.resize(static_cast<std::size_t>(table.days));
  reach(table, node, room.arrive.data(), room.leave.data());
  Number best = table.never;
  int end = -1;
  for (int day = 0; day < table.days; ++day) {
    const Number cost = room.leave[static_cast<std::size_t>(day)] + table.last[day];
    if (cost < best) {
      best = cost;
      end = day;
    }
  }
  days.clear();
  for (int day = end; day >= 0; day = day_before(table, room, day)) days.push_back(day);
  std::reverse(days.begin(), days.end());
  return best;
}

}  // namespace

float cheapest_route(const RouteTable<float>& table, const float* node, RouteRoom<float>& room,
                     std::vector<int>& days) {
  return cheapest(table, node, room, days);
}

double cheapest_route(const RouteTable<double>& table, const double* node, RouteRoom<double>& room,
                      std::vector<int>& days) {
  return cheapest(table, node, room, days);
}

double cheapest_route_among(const RouteTable<double>& table, std::span<RouteNode> nodes, std::vector<int>& slots) {
  double best = table.never;
  int end = -1;
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    RouteNode& here = nodes[i];
    double arrive = here.first;
    for (std::size_t j = i; j-- > 0;) {
      const int gap = here.day - nodes[j].day;
      if (gap > table.gap_max) break;
      if (gap < table.gap_min || nodes[j].leave + table.gap[gap] >= arrive) continue;
      arrive = nodes[j].leave + table.gap[gap];
      here.before = static_cast<int>(j);
    }
    here.leave = arrive + here.node;
    if (here.leave + table.last[here.day] >= best) continue;
    best = here.leave + table.last[here.day];
    end = static_cast<int>(i);
  }
  slots.clear();
  for (int i = end; i >= 0; i = nodes[static_cast<std::size_t>(i)].before) {
    slots.push_back(nodes[static_cast<std::size_t>(i)].slot);
  }
  std::reverse(slots.begin(), slots.end());
  return best;
}

}  // namespace hw::plan
