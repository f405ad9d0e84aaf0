#include "src/proposal/no_place.h"

#include "src/proposal/ahead_test.h"

namespace hw::proposal {
namespace {

TEST(NoPlace, OnlyWhatNoPlanCouldHoldIsTakenOut) {
  ShopAhead shop = small_shop();
  shop.machines[0].tasks[0].task.minutes = 600;  // longer than the shift
  shop.machines[0].tasks[0].task.assembly = "guards";
  StopInstance made = make_instance(shop, 42, Moving::fixed);
  const auto out = take_out_impossible(shop, made.instance);
  ASSERT_EQ(out.size(), 1u);
  EXPECT_EQ(out[0].task, "belt");
  EXPECT_EQ(out[0].says.saying.texts.at("title"), "Tighten the belt");
  EXPECT_NE(out[0].says.text.find("cannot be placed"), std::string::npos) << out[0].says.text;
  EXPECT_EQ(out[0].says.saying.code, "no-place-several") << "longer than the shift, and more than the crew has";
  EXPECT_TRUE(out[0].ways.empty());
  EXPECT_EQ(made.instance.machines[0].tasks.size(), 1u);
  EXPECT_EQ(made.instance.machines[1].tasks.size(), 1u);
}

TEST(NoPlace, TheLeastOfEachLimitThatWouldDoIsSaidInThePlantsWords) {
  ShopAhead shop = small_shop();
  shop.cells[0].max_down = 0;
  shop.machines[0].tasks[0].task.assembly = "guards";  // that is done in time or not at all
  StopInstance made = make_instance(shop, 42, Moving::fixed);
  const auto out = take_out_impossible(shop, made.instance);
  ASSERT_EQ(out.size(), 1u);
  EXPECT_EQ(out[0].says.saying.code, "no-place");
  ASSERT_EQ(out[0].ways.size(), 1u);
  EXPECT_EQ(out[0].ways[0].text, "1 more machines of North down at once");
  EXPECT_EQ(out[0].ways[0].saying, (Saying{"room-cell", {{"cell", "North"}}, {{"count", 1}}}));
}

TEST(NoPlace, WhatIsDoneEveryDayIsNotImpossibleBecauseOfALongHoliday) {
  ShopAhead shop = small_shop();
  shop.machines[0].tasks[0].next = due::on_calendar(day(6));
  for (int of_march = 9; of_march <= 20; ++of_march) shop.calendar.closed.push_back({day(of_march), "holiday"});
  StopInstance made = make_instance(shop, 42, Moving::fixed);
  EXPECT_TRUE(take_out_impossible(shop, made.instance).empty());
}

}  // namespace
}  // namespace hw::proposal
