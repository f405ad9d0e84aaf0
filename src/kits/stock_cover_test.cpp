#include "src/kits/stock_cover.h"

#include <gtest/gtest.h>

#include "src/kits/joint_order.h"
#include "src/kits/line_choice.h"
#include "src/kits/lot_costs.h"
#include "src/kits/stores_ahead.h"
#include "src/kits/stores_test.h"

namespace hw::kits {
namespace {

TEST(StockCover, AnOpenOrderCountsByItsAgeOrItsConfirmedDay) {
  PartAhead part;
  part.needs.certain.push_back({monday + 5, 1});
  part.open.push_back({1, 8, {}});
  const LeadTime lead(10);
  EXPECT_NEAR(StockCover(part, lead, monday, 40).met_on(5), lead.within_after(8, 5), 1e-12);
  part.open[0].confirmed_in_days = 5;
  EXPECT_EQ(StockCover(part, lead, monday, 40).met_on(5), 1);
  part.open[0].confirmed_in_days = 6;
  const StockCover cover(part, lead, monday, 40);
  EXPECT_EQ(cover.met_on(5), 0);
  EXPECT_EQ(cover.met_on(6), 1);
  EXPECT_EQ(cover.met_until(10, 0), 0) << "it was missing for a day";
  part.open[0].confirmed_in_days = -1;
  EXPECT_LT(StockCover(part, lead, monday, 40).met_on(5), 1) << "it was to be there yesterday";
}

TEST(StockCover, Property_OrderingLaterNeverRaisesTheChance) {
  const PartAhead part = failing_part(0.08, 3, 0.95);
  const LeadTime lead(12);
  const StockCover cover(part, lead, monday, 120);
  for (int day = 1; day < 100; ++day) {
    EXPECT_LE(cover.until_delivery(day, 3), cover.until_delivery(day - 1, 3));
    EXPECT_LE(cover.until_delivery(day, 3), cover.until_delivery(day, 4));
    EXPECT_GE(cover.missing_at_delivery(day, 3), cover.missing_at_delivery(day - 1, 3));
    EXPECT_LE(cover.met_on(day), cover.met_on(day, 2));
  }
}

// Held until the day it is taken: a certain need on day 40, delivered on day 30.
TEST(LotCosts, AUnitIsHeldFromItsDeliveryUntilItIsTaken) {
  PartAhead part;
  part.key = "belt";
  part.price = 100;
  part.needs.certain.push_back({monday + 40, 2});
  const LeadTime lead = steady_lead(10);
  const StockCover cover(part, lead, monday, 60);
  const LotCosts costs(cover, 20, 0.5);
  EXPECT_NEAR(costs.lot(2, 0).holding, 2 * 10 * 0.5, 1e-6);
  EXPECT_NEAR(costs.lot(3, 0).holding, 2 * 10 * 0.5 + 30 * 0.5, 1e-6) << "nobody takes the third";
  EXPECT_EQ(costs.lot(2, 0).missing, 0);
}

TEST(LineChoice, WaitsForALastDayAndChoosesFromWholePacks) {
  PartAhead part;
  part.price = 10;
  part.pack = 3;
  part.needs.certain.push_back({monday + 40, 4});
  const LeadTime lead = steady_lead(10);
  const StockCover cover(part, lead, monday, 90);
  const auto choice = choose_line(cover, {10 * 0.2 / 365, 20});
  ASSERT_TRUE(choice);
  EXPECT_EQ(choice->last_day, 30);
  EXPECT_EQ(choice->range.least, 6);
  EXPECT_EQ(cheapest(choice->lots, 20).quantity, 6);
  part.on_hand = 4;
  EXPECT_FALSE(choose_line(StockCover(part, lead, monday, 90), {0.01, 20}));
}

TEST(JointOrder, JoinsWhileItMakesOrdersCheaperByTheDay) {
  const std::vector<Joiner> joiners = {{0, 90, 0.1}, {10, 90, 0.1}, {60, 90, 5}};
  const JointOrder joint = join_order(joiners, 30, 365);
  EXPECT_EQ(joint.day, 0);
  EXPECT_EQ(joint.count, 2U) << "the third would be held too dearly";
  EXPECT_GT(joint.saves, 0);
  EXPECT_EQ(join_order(joiners, 0, 365).count, 1U);
  EXPECT_EQ(join_order({{4, 90, 1}, {4, 90, 1000}}, 30, 365).count, 2U) << "both have to go that day";
}

}  // namespace
}  // namespace hw::kits
