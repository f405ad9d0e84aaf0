#include "src/sequence/walking_order.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>

#include <gtest/gtest.h>

#include "src/catalogue/shop_files.h"
#include "tests/places/places.h"

namespace hw::sequence {
namespace {

using catalogue::Point;
using Points = std::vector<Point>;
using Order = std::vector<int>;

Point at(int number, double x, double y, std::string assembly = "coolant") {
  return {.number = number, .assembly = std::move(assembly), .title = "", .x = x, .y = y};
}

// Coordinates on a coarse grid, so that ties and points at one place come up often.
Points some_points(std::mt19937& random, int count, bool has_panel) {
  std::uniform_int_distribution<int> grid(0, 8);
  Points points;
  for (int i = 1; i <= count; ++i) points.push_back(at(i, grid(random) / 8.0, grid(random) / 8.0));
  if (has_panel && count > 0) points.back().assembly = "control";
  std::shuffle(points.begin(), points.end(), random);
  return points;
}

Order sorted_numbers(const Points& points) {
  Order numbers;
  for (const Point& point : points) numbers.push_back(point.number);
  std::sort(numbers.begin(), numbers.end());
  return numbers;
}

// Judge from outside: every order there is.
double shortest_by_trying_all(const Points& points) {
  Order order = sorted_numbers(points);
  double best = walk_length(points, order);
  while (std::next_permutation(order.begin(), order.end())) best = std::min(best, walk_length(points, order));
  return best;
}

TEST(WalkingOrder, GoesRoundTheOutsideFromTheFrontRightCorner) {
  const Points points{at(1, 0.5, 0.05), at(2, 0.95, 0.5), at(3, 0.02, 0.5)};
  EXPECT_EQ(walking_order(points), (Order{2, 1, 3}));
  // 0.5 up the right side, 1 to the middle of the back, 1 to the middle of the left side; reaches 0.05, 0.05, 0.02.
  EXPECT_NEAR(walk_length(points, {2, 1, 3}), 2.5 + 0.24, 1e-12);
}

TEST(WalkingOrder, BeginsAtThePanelWhereAPointIsOne) {
  const Points points{at(1, 0.97, 0.5), at(2, 0.4, 0.98), at(7, 0.1, 0.99, "control")};
  EXPECT_EQ(walking_order(points), (Order{7, 2, 1}));
}

TEST(WalkingOrder, ThatWithPointsToBothSidesTakesTheShorterSideFirst) {
  const Points points{at(1, 1, 0.7), at(2, 0.1, 1), at(3, 1, 0.9)};
  EXPECT_EQ(walking_order(points), (Order{3, 1, 2}));
}

TEST(WalkingOrder, NoPointMakesAnEmptyWalkAndOneTheWalkToIt) {
  EXPECT_TRUE(walking_order(Points{}).empty());
  EXPECT_EQ(walking_order(Points{at(4, 0.5, 0.5)}), (Order{4}));
  EXPECT_EQ(walk_length({at(4, 0.5, 0.75)}, {4}), 0.5 + 2 * 0.25);
}

TEST(WalkingOrder, Property_NoOtherOrderIsShorter) {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    const Points points = some_points(random, static_cast<int>(seed % 8), seed % 2 == 0);
    EXPECT_NEAR(walk_length(points, walking_order(points)), shortest_by_trying_all(points), 1e-9);
  }
}

TEST(WalkingOrder, Property_IsAPermutationWhateverTheOrderOfItsPointsAndNeverLongerThanAnOrderGiven) {
  for (unsigned seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    Points points = some_points(random, static_cast<int>(seed % 30), seed % 3 == 0);
    const Order order = walking_order(points);
    EXPECT_TRUE(std::is_permutation(order.begin(), order.end(), sorted_numbers(points).begin()));
    Order given = order;
    std::shuffle(given.begin(), given.end(), random);
    EXPECT_LE(walk_length(points, order), walk_length(points, given) + 1e-9);
    std::shuffle(points.begin(), points.end(), random);
    EXPECT_EQ(walking_order(points), order);
  }
}

TEST(WalkingOrder, OneMadeByHandStandsAsItIs) {
  const Points points{at(1, 1, 0.7), at(2, 0.1, 1), at(3, 1, 0.9)};
  EXPECT_EQ(walking_order(points, {2, 1, 3}), (Order{2, 1, 3}));
}

TEST(WalkingOrder, OneMadeByHandLosesPointsThatAreGoneAndTakesANewOneWhereItCostsLeast) {
  const Points points{at(1, 1, 0.7), at(2, 0.1, 1), at(3, 1, 0.9), at(4, 1, 0.8)};
  EXPECT_EQ(walking_order(points, {2, 9, 3, 3, 1}), (Order{2, 3, 4, 1}));
  EXPECT_EQ(walking_order(points, {}).size(), 4u);
}

TEST(WalkingOrder, Property_ANewPointIsPutInAtNoMoreThanAnyOtherPlaceCosts) {
  for (unsigned seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    const Points points = some_points(random, 2 + static_cast<int>(seed % 10), false);
    Order by_hand = sorted_numbers(points);
    std::shuffle(by_hand.begin(), by_hand.end(), random);
    const int added = by_hand.back();
    by_hand.pop_back();
    const double length = walk_length(points, walking_order(points, by_hand));
    for (std::size_t place = 0; place <= by_hand.size(); ++place) {
      Order other = by_hand;
      other.insert(other.begin() + static_cast<std::ptrdiff_t>(place), added);
      EXPECT_LE(length, walk_length(points, other) + 1e-9);
    }
  }
}

TEST(WalkingOrder, EverySetOfTheLibraryBeginsAtItsPanel) {
  for (const auto& file : std::filesystem::directory_iterator(in_source("library"))) {
    if (file.path().extension() != ".toml") continue;
    std::stringstream text;
    text << std::ifstream(file.path()).rdbuf();
    const auto set = catalogue::parse_task_set(text.str(), file.path().filename().string());
    ASSERT_TRUE(set.has_value()) << set.error().message;
    const Order order = walking_order(set->points);
    EXPECT_EQ(set->points.at(static_cast<std::size_t>(order.at(0) - 1)).assembly, "control") << set->kind;
    EXPECT_LE(walk_length(set->points, order), walk_length(set->points, sorted_numbers(set->points))) << set->kind;
  }
}

TEST(WalkingOrder, APlaceOnTheOutlineIsAlwaysBelowFour) {
  EXPECT_EQ(place_of(at(1, 1, 1)), 0) << "the front right corner begins the outline and does not end it";
  EXPECT_NEAR(place_of(at(1, 0.5, 1)), 3.5, 1e-12);
  EXPECT_NEAR(place_of(at(1, 1, 0.25)), 0.75, 1e-12);
  EXPECT_NEAR(operators_place({at(2, 0, 0.5), at(3, 0.25, 1, "control")}), 3.25, 1e-12);
  EXPECT_EQ(operators_place({}), 0);
}

}  // namespace
}  // namespace hw::sequence
