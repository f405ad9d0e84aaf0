#include "src/proposal/crew_tables.h"

#include "src/proposal/ahead_test.h"

namespace hw::proposal {
namespace {

using catalogue::Skill;

double hours_on(const ShopAhead& shop, Skill skill, LocalDate date, int shift = 0) {
  const PlantSlots slots(shop.calendar, shop.today);
  return crew_time(shop, slots, skill, {slots.day_of(date), shift}).hours;
}

TEST(CrewTables, WhatTheShopSaysCountsAlsoWhenThePlantDoesNotWork) {
  const ShopAhead shop = small_shop();
  EXPECT_EQ(hours_on(shop, Skill::technician, day(9)), 3);
  EXPECT_EQ(hours_on(shop, Skill::technician, day(9), 1), 0) << "nobody on the late shift";
  EXPECT_EQ(hours_on(shop, Skill::technician, day(7)), 6) << "Saturday";
}

TEST(CrewTables, ASkillOfWhichNothingIsSaidHasOnePersonInEachShift) {
  const ShopAhead shop = small_shop();
  EXPECT_EQ(hours_on(shop, Skill::machine_operator, day(9)), 2) << "a quarter of the shift";
  EXPECT_EQ(hours_on(shop, Skill::outside_service, day(9), 1), 8);
  EXPECT_EQ(hours_on(shop, Skill::outside_service, day(7)), 0) << "Saturday";
}

TEST(CrewTables, OnePersonAwayTakesAnEqualShareAndASkillAwayTakesAll) {
  ShopAhead shop = small_shop();
  shop.stopping.absences = {{{}, "Ada", day(9), day(10), "course"}, {Skill::technician, {}, day(12), day(12), "fair"}};
  EXPECT_EQ(hours_on(shop, Skill::technician, day(9)), 1.5);
  EXPECT_EQ(hours_on(shop, Skill::technician, day(11)), 3);
  EXPECT_EQ(hours_on(shop, Skill::technician, day(12)), 0);
  EXPECT_EQ(hours_on(shop, Skill::outside_service, day(12)), 8) << "others stay";
}

TEST(CrewTables, NobodyIsThereOnAClosedDay) {
  ShopAhead shop = small_shop();
  shop.calendar.closed = {{day(9), "holiday"}};
  EXPECT_EQ(hours_on(shop, Skill::technician, day(9)), 0);
}

TEST(CrewTables, AbsencesStandInTheInstanceByTheirDay) {
  ShopAhead shop = small_shop();
  shop.stopping.absences = {{{}, "Ada", day(9), day(9), "course"}, {Skill::technician, {}, day(12), day(12), "fair"}};
  const PlantSlots slots(shop.calendar, shop.today);
  const auto crews = crews_of(shop, slots, {1, 14});
  ASSERT_EQ(crews.size(), 3u);
  const plan::Crew& technician = crews[1];
  EXPECT_EQ(technician.id, "technician");
  EXPECT_EQ(technician.days_off, (std::vector<int>{0, 7})) << "today, and the day of the fair";
  ASSERT_TRUE(technician.absent);
  ASSERT_EQ(technician.absent->size(), 1u);
  EXPECT_EQ(technician.absent->at(0).day, 4);
  EXPECT_EQ(technician.absent->at(0).hours, 1.5);
}

}  // namespace
}  // namespace hw::proposal
