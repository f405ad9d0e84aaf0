#include "src/simulate/stores_years.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "src/simulate/ordering_rules.h"
#include "src/simulate/stores_floor.h"

namespace hw::simulate {
namespace {

StoresPlay small_play(std::uint64_t beginning) {
  StoresPlay play;
  play.plan = {.seed = beginning, .kinds = 1, .machines_each = 3, .suppliers = 3};
  play.years = 2;
  play.days_before = 90;
  return play;
}

TEST(StoresYears, NoPieceIsLostOrMade) {
  for (std::uint64_t beginning = 1; beginning <= 5; ++beginning) {
    const StoresOutcome outcome = play_stores(small_play(beginning), MinMax(1.5));
    EXPECT_EQ(outcome.begun_with + outcome.received, outcome.taken + outcome.left) << beginning;
    EXPECT_GT(outcome.needs, 50);
  }
}

TEST(StoresYears, TheSameSeedIsTheSameWhateverIsOrdered) {
  const StoresOutcome few = play_stores(small_play(7), SoManyOfEverything(1));
  const StoresOutcome many = play_stores(small_play(7), SoManyOfEverything(9));
  EXPECT_EQ(few.needs, many.needs);
  EXPECT_EQ(few.stops, many.stops);
  EXPECT_LT(few.needs_met, many.needs_met) << "more stock serves more";
  EXPECT_EQ(play_stores(small_play(7), SoManyOfEverything(9)).stock_value, many.stock_value);
}

TEST(StoresYears, ProposedOrdersKeepTheWantedChanceWithLessStockThanMinAndMax) {
  const StoresPlay play = small_play(3);
  const StoresOutcome ours = play_stores(play, ProposedOrders(0.9, play.costs));
  EXPECT_EQ(ours.begun_with + ours.received, ours.taken + ours.left);
  EXPECT_GE(ours.service, 0.9 - ours.service_se);
  double level = 0.5;
  StoresOutcome usual = play_stores(play, MinMax(level));
  while (usual.service < ours.service && level < 20) usual = play_stores(play, MinMax(level += 0.25));
  EXPECT_LT(ours.stock_value, 0.8 * usual.stock_value) << "at the same service, " << level << " times mean use";
}

TEST(StoresFloor, StopsAreAgreedAheadAndHappenOnTheirDay) {
  StoresFloor floor({.seed = 2, .kinds = 1, .machines_each = 2, .suppliers = 2});
  int stops = 0;
  for (int day = 0; day < 200; ++day) {
    std::vector<std::size_t> due;
    for (const WornTask& task : floor.tasks()) {
      if (task.agreed != day) continue;
      for (const Taken& taken : task.takes) due.push_back(taken.part);
    }
    std::vector<std::size_t> done;
    for (const KitTaken& kit : floor.work_a_day()) {
      if (!kit.is_stop) continue;
      ++stops;
      for (const Taken& taken : kit.takes) done.push_back(taken.part);
    }
    EXPECT_TRUE(std::is_permutation(due.begin(), due.end(), done.begin(), done.end())) << day;
  }
  EXPECT_GT(stops, 5);
}

}  // namespace
}  // namespace hw::simulate
