#include "src/proposal/agreed_limits.h"

#include "src/proposal/ahead_test.h"

namespace hw::proposal {
namespace {

// Whether the first agreed stop's first task can be kept.
bool is_kept(const ShopAhead& shop, plan::EnergyState state = plan::EnergyState::locked) {
  const PlantSlots slots(shop.calendar, shop.today);
  const AgreedStop& stop = shop.agreed.at(0);
  plan::Task task;
  task.state = state;
  const PlantSlot slot{slots.day_of(stop.on), slots.shift_of(stop.on, stop.shift).value_or(0)};
  return AgreedLimits(shop, slots).allows(stop, slot, task);
}

TEST(AgreedLimits, AStopWithinTheLimitsIsKept) {
  ShopAhead shop = small_shop();
  shop.agreed = {agreed_stop(shop, "s", "m1", day(9), {"belt"})};
  EXPECT_TRUE(is_kept(shop));
  shop.agreed = {agreed_stop(shop, "s", "m1", day(7), {"belt"})};
  EXPECT_TRUE(is_kept(shop)) << "on a Saturday too";
}

TEST(AgreedLimits, WhatNeedsProductionIsNotKeptWhenThePlantDoesNotWork) {
  ShopAhead shop = small_shop();
  shop.agreed = {agreed_stop(shop, "s", "m1", day(7), {"belt"})};
  EXPECT_FALSE(is_kept(shop, plan::EnergyState::running));
  shop.agreed = {agreed_stop(shop, "s", "m1", day(9), {"belt"})};
  EXPECT_TRUE(is_kept(shop, plan::EnergyState::running));
}

TEST(AgreedLimits, TwoStopsThatTogetherWantMoreThanThereIsAreNotKept) {
  ShopAhead shop = small_shop();
  shop.agreed = {agreed_stop(shop, "s", "m1", day(9), {"belt"}), agreed_stop(shop, "t", "m2", day(9), {"belt"})};
  EXPECT_FALSE(is_kept(shop)) << "one machine of the cell at once";
  shop.cells[0].max_down = 2;
  EXPECT_TRUE(is_kept(shop));
  shop.agreed[1].tasks[0].minutes = 200;
  EXPECT_FALSE(is_kept(shop)) << "the technicians have three hours and one of overtime";
}

TEST(AgreedLimits, AStopLongerThanItsShiftIsNotKept) {
  ShopAhead shop = small_shop();
  shop.stopping.crews[0].hours[0].hours = 20;
  shop.agreed = {agreed_stop(shop, "s", "m1", day(9), {"belt"})};
  shop.agreed[0].tasks[0].minutes = 7.3 * 60;
  EXPECT_FALSE(is_kept(shop)) << "with three quarters of an hour to isolate";
  shop.agreed[0].tasks[0].minutes = 7.2 * 60;
  EXPECT_TRUE(is_kept(shop));
}

}  // namespace
}  // namespace hw::proposal
