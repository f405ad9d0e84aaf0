#include "src/sequence/walking_order.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>

#include "libs/values/assert.h"
#include "src/sequence/outline.h"

namespace hw::sequence {
namespace {

using catalogue::Point;

constexpr double front_right_corner = 0;  // where the outline begins, running right side, back, left side, front

// Where one stands for a point: how far along the outline, counter-clockwise seen from above, and how far to reach in.
struct Stand {
  int point = 0;
  double along = 0;  // 0 to 4
  double reach = 0;
};

Stand stand_at(const Point& point) {
  const std::array<Stand, 4> sides{Stand{point.number, 3 + point.x, 1 - point.y},  // front, left to right
                                   Stand{point.number, 1 - point.y, 1 - point.x},  // right side, front to back
                                   Stand{point.number, 2 - point.x, point.y},      // back, right to left
                                   Stand{point.number, 2 + point.y, point.x}};     // left side, back to front
  return *std::min_element(sides.begin(), sides.end(),
                           [](const Stand& a, const Stand& b) { return a.reach < b.reach - no_length; });
}

std::vector<Stand> stands_at(const std::vector<Point>& points) {
  std::vector<Stand> stands;
  stands.reserve(points.size());
  for (const Point& point : points) stands.push_back(stand_at(point));
  return stands;
}

// The walk that leaves out the gap before stands[gap]: those before it lie on the way on, the others on the way back.
struct Walk {
  std::size_t gap = 0;
  double length = std::numeric_limits<double>::infinity();
  bool is_on_first = true;
};

Walk walk_without(const std::vector<Stand>& stands, std::size_t gap, double start) {
  const double on = gap == 0 ? 0 : way_on(start, stands[gap - 1].along);
  const double back = gap == stands.size() ? 0 : outline_length - way_on(start, stands[gap].along);
  return {.gap = gap, .length = on + back + std::min(on, back), .is_on_first = on <= back};
}

Walk shortest_walk(const std::vector<Stand>& stands, double start) {
  Walk best;
  for (std::size_t gap = 0; gap <= stands.size(); ++gap) {
    const Walk walk = walk_without(stands, gap, start);
    if (walk.length < best.length - no_length) best = walk;
  }
  return best;
}

// By the way on from the start; several points at one place by their numbers.
void sort_from(std::vector<Stand>& stands, double start) {
  std::sort(stands.begin(), stands.end(), [&](const Stand& a, const Stand& b) {
    const double on_a = way_on(start, a.along);
    const double on_b = way_on(start, b.along);
    return on_a != on_b ? on_a < on_b : a.point < b.point;
  });
}

const Stand& stand_of(const std::vector<Stand>& stands, int number) {
  const auto there = std::find_if(stands.begin(), stands.end(), [&](const Stand& one) { return one.point == number; });
  HW_ASSERT(there != stands.end(), "an order names points of its machine");
  return *there;
}

// How much longer the walk gets when `added` is put in before walk[place].
double detour(const std::vector<Stand>& walk, std::size_t place, const Stand& added, double start) {
  const double before = place == 0 ? start : walk[place - 1].along;
  if (place == walk.size()) return shorter_way(before, added.along);
  return shorter_way(before, added.along) + shorter_way(added.along, walk[place].along) -
         shorter_way(before, walk[place].along);
}

void put_in(std::vector<Stand>& walk, const Stand& added, double start) {
  std::size_t best = walk.size();
  for (std::size_t place = walk.size(); place-- > 0;) {
    if (detour(walk, place, added, start) < detour(walk, best, added, start) - no_length) best = place;
  }
  walk.insert(walk.begin() + static_cast<std::ptrdiff_t>(best), added);
}

std::vector<int> numbers_of(const std::vector<Stand>& walk) {
  std::vector<int> numbers;
  numbers.reserve(walk.size());
  for (const Stand& stand : walk) numbers.push_back(stand.point);
  return numbers;
}

// Takes out of `stands` those that the order names, in its order; a number that is named twice counts once.
std::vector<Stand> take_named(std::vector<Stand>& stands, const std::vector<int>& order) {
  std::vector<Stand> named;
  for (const int number : order) {
    const auto there = std::find_if(stands.begin(), stands.end(), [&](const auto& one) { return one.point == number; });
    if (there == stands.end()) continue;
    named.push_back(*there);
    stands.erase(there);
  }
  return named;
}

}  // namespace

double place_of(const Point& point) {
  const double along = stand_at(point).along;
  return along < outline_length ? along : 0;
}

double operators_place(const std::vector<Point>& points) {
  const Point* panel = nullptr;
  for (const Point& point : points) {
    if (point.assembly == "control" && (!panel || point.number < panel->number)) panel = &point;
  }
  return panel ? place_of(*panel) : front_right_corner;
}

std::vector<int> walking_order(const std::vector<Point>& points) {
  const double start = operators_place(points);
  std::vector<Stand> stands = stands_at(points);
  sort_from(stands, start);
  const Walk walk = shortest_walk(stands, start);
  const auto gap = stands.begin() + static_cast<std::ptrdiff_t>(walk.gap);
  std::reverse(gap, stands.end());
  const auto away =
      std::find_if(stands.begin(), gap, [&](const auto& one) { return way_on(start, one.along) > no_length; });
  if (!walk.is_on_first) std::rotate(away, gap, stands.end());  // what stands at the start stays first
  return numbers_of(stands);
}

std::vector<int> walking_order(const std::vector<Point>& points, const std::vector<int>& made_by_hand) {
  const double start = operators_place(points);
  std::vector<Stand> added = stands_at(points);
  std::vector<Stand> walk = take_named(added, made_by_hand);
  std::sort(added.begin(), added.end(), [](const auto& a, const auto& b) { return a.point < b.point; });
  for (const Stand& stand : added) put_in(walk, stand, start);
  return numbers_of(walk);
}

double walk_length(const std::vector<Point>& points, const std::vector<int>& order) {
  const std::vector<Stand> stands = stands_at(points);
  double place = operators_place(points);
  double length = 0;
  for (const int number : order) {
    const Stand& stand = stand_of(stands, number);
    length += shorter_way(place, stand.along) + 2 * stand.reach;
    place = stand.along;
  }
  return length;
}

}  // namespace hw::sequence
