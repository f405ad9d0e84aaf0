#include "src/sequence/stop_order.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <functional>
#include <numeric>
#include <random>

#include <gtest/gtest.h>

namespace hw::sequence {
namespace {

using catalogue::EnergyState;
using Works = std::vector<StopWork>;

constexpr auto producing = EnergyState::in_production;
constexpr auto at_rest = EnergyState::powered_at_rest;
constexpr auto isolated = EnergyState::isolated;

// Every order of the works and, within it, the changes and the walk that it takes.
struct Tried {
  int changes = 1000;
  double walk = 1e9;
  auto operator<=>(const Tried&) const = default;
};

Tried tried_in(const Works& works, const std::vector<int>& order, double start) {
  Tried tried{0, 0};
  auto level = static_cast<int>(producing);
  double place = start;
  for (const int number : order) {
    const StopWork& work = works[static_cast<std::size_t>(number)];
    tried.changes += std::abs(static_cast<int>(work.state) - level);
    level = static_cast<int>(work.state);
    const double apart = std::abs(work.place - place);
    tried.walk += std::min(apart, 4 - apart);
    place = work.place;
  }
  tried.changes += level;
  return tried;
}

bool keeps_before_and_after(const Works& works, const std::vector<int>& order) {
  for (auto here = order.begin(); here != order.end(); ++here) {
    for (const int other : works[static_cast<std::size_t>(*here)].after) {
      if (std::find(order.begin(), here, other) == here) return false;
    }
  }
  return true;
}

Tried best_by_trying_all(const Works& works, double start) {
  std::vector<int> order(works.size());
  std::iota(order.begin(), order.end(), 0);
  Tried best;
  do {
    if (keeps_before_and_after(works, order)) best = std::min(best, tried_in(works, order, start));
  } while (std::next_permutation(order.begin(), order.end()));
  return best;
}

Works some_works(std::mt19937& random, int count, int after_percent) {
  std::uniform_int_distribution<int> percent(1, 100);
  Works works;
  for (int i = 0; i < count; ++i) {
    StopWork work;
    work.state = static_cast<EnergyState>(percent(random) % 3);
    work.place = percent(random) % 16 / 4.0;
    work.minutes = percent(random) % 30;
    for (int other = 0; other < i; ++other) {
      if (percent(random) <= after_percent) work.after.push_back(other);
    }
    works.push_back(work);
  }
  return works;
}

TEST(StopOrder, MeasuresFirstThenIsolatesOnceAndChecksAtTheEnd) {
  const Works works{{isolated, 1, 30, {}}, {producing, 0, 5, {}}, {producing, 0, 5, {0}}, {isolated, 2, 20, {}}};
  const auto order = order_stop(works, 0);
  ASSERT_TRUE(order.has_value());
  EXPECT_EQ(order->works, (std::vector<int>{1, 0, 3, 2}));
  EXPECT_EQ(order->state_changes, 4);
  EXPECT_NEAR(order->walk_length, 4, 1e-12);
}

TEST(StopOrder, Property_NoOtherOrderHasFewerChangesOrWithAsManyAShorterWalk) {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    const Works works = some_works(random, static_cast<int>(seed % 8), static_cast<int>(seed % 4) * 15);
    const auto order = order_stop(works, 0.5);
    ASSERT_TRUE(order.has_value());
    ASSERT_EQ(order->works.size(), works.size());
    EXPECT_TRUE(keeps_before_and_after(works, order->works));
    const Tried best = works.empty() ? Tried{0, 0} : best_by_trying_all(works, 0.5);
    EXPECT_EQ(order->state_changes, best.changes);
    EXPECT_NEAR(order->walk_length, best.walk, 1e-9);
    const Tried told = tried_in(works, order->works, 0.5);
    EXPECT_EQ(told.changes, best.changes);
    EXPECT_NEAR(told.walk, best.walk, 1e-9);
  }
}

// Thirty works of a usual service: some measured before, most of them isolated, a few pairs as drain and filter, a
// check in production after the first.
Works yearly_service(std::mt19937& random) {
  Works works = some_works(random, 30, 0);
  std::uniform_int_distribution<int> percent(1, 100);
  for (std::size_t i = 0; i < works.size(); ++i) {
    works[i].place = percent(random) / 25.001;
    works[i].state = i < 4 ? producing : i < 12 ? at_rest : isolated;
    if (i > 12 && percent(random) <= 25) works[i].after = {static_cast<int>(i) - 1};
  }
  works[3].after = {12};
  return works;
}

double slowest_ms(const std::function<Works(std::mt19937&)>& make) {
  double slowest = 0;
  for (unsigned seed = 1; seed <= 20; ++seed) {
    std::mt19937 random(seed);
    const Works works = make(random);
    const auto began = std::chrono::steady_clock::now();
    EXPECT_TRUE(order_stop(works, 0).has_value());
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - began;
    slowest = std::max(slowest, took.count());
  }
  return slowest;
}

// The limits are wide, for a busy computer; what it took stands in the test's record.
TEST(StopOrder, OfThirtyWorksOfAUsualServiceTakesMilliseconds) {
  const double slowest = slowest_ms(yearly_service);
  RecordProperty("slowest_ms", std::to_string(slowest));
  EXPECT_LT(slowest, 200);
}

TEST(StopOrder, OfThirtyWorksTangledByChanceStillComes) {
  const double slowest = slowest_ms([](std::mt19937& random) { return some_works(random, 30, 3); });
  RecordProperty("slowest_ms", std::to_string(slowest));
  EXPECT_LT(slowest, 5000);
}

TEST(StopOrder, RefusesWorksThatWaitForEachOtherOrForNothing) {
  EXPECT_FALSE(order_stop({{at_rest, 0, 1, {1}}, {at_rest, 0, 1, {0}}}, 0).has_value());
  EXPECT_FALSE(order_stop({{at_rest, 0, 1, {3}}}, 0).has_value());
  EXPECT_FALSE(order_stop({{at_rest, 4, 1, {}}}, 0).has_value());
  EXPECT_FALSE(order_stop(Works(61), 0).has_value());
  EXPECT_TRUE(order_stop({}, 0)->works.empty());
}

TEST(StopOrder, Property_TwoPeopleKeepOrderStatesAndBeingAloneAndAreNotLaterThanOne) {
  for (unsigned seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    Works works = some_works(random, static_cast<int>(seed % 20), 8);
    double one_person = 0;
    for (std::size_t i = 0; i < works.size(); ++i) {
      works[i].is_alone = i % 5 == 0;
      one_person += works[i].minutes;
    }
    const auto order = order_stop(works, 0);
    const std::vector<Share> shares = share_between_two(works, *order);
    ASSERT_EQ(shares.size(), works.size());
    const auto end = [&](const Share& share) {
      return share.begin_minutes + works[static_cast<std::size_t>(share.work)].minutes;
    };
    for (const Share& a : shares) {
      const StopWork& work = works[static_cast<std::size_t>(a.work)];
      EXPECT_LE(end(a), one_person + 1e-9);
      for (const Share& b : shares) {
        const StopWork& other = works[static_cast<std::size_t>(b.work)];
        const bool comes_after = std::count(work.after.begin(), work.after.end(), b.work) > 0;
        EXPECT_TRUE(!comes_after || a.begin_minutes >= end(b) - 1e-9);
        const bool meets = a.work != b.work && a.begin_minutes < end(b) - 1e-9 && b.begin_minutes < end(a) - 1e-9;
        EXPECT_FALSE(meets && (a.person == b.person || work.is_alone || work.state != other.state));
      }
    }
  }
}

}  // namespace
}  // namespace hw::sequence
