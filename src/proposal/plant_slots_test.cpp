#include "src/proposal/plant_slots.h"

#include "src/proposal/ahead_test.h"

namespace hw::proposal {
namespace {

TEST(PlantSlots, TablesBeginWithTheWeekdayOfTheFirstDay) {
  const ShopAhead shop = small_shop();
  const PlantSlots slots(shop.calendar, shop.today);
  const auto table = slots.week([&](PlantSlot slot) { return slots.works(slot.day, slot.shift) ? 1 : 0; });
  ASSERT_EQ(table.size(), 7u);
  EXPECT_EQ(table[0], (std::vector<int>{1, 1})) << "Thursday";
  EXPECT_EQ(table[1], (std::vector<int>{1, 1})) << "Friday";
  EXPECT_EQ(table[2], (std::vector<int>{0, 0})) << "Saturday";
  EXPECT_EQ(table[3], (std::vector<int>{0, 0})) << "Sunday";
  EXPECT_EQ(table[4], (std::vector<int>{1, 1})) << "Monday";
}

TEST(PlantSlots, AShiftIsFoundByItsNameAlsoOnADayOnWhichItDoesNotWork) {
  const ShopAhead shop = small_shop();
  const PlantSlots slots(shop.calendar, shop.today);
  EXPECT_EQ(slots.shift_of(day(7), "early"), 0);
  EXPECT_EQ(slots.shift_of(day(9), "late"), 1);
  EXPECT_EQ(slots.shift_of(day(9), "night"), std::nullopt);
}

TEST(PlantSlots, OfTwoShiftsOfOneNameTheOneThatWorksThatDayIsMeant) {
  catalogue::PlantCalendar calendar;
  calendar.shifts = {{"early", 360, 840, {1, 2, 3, 4, 5}}, {"early", 420, 720, {6}}};
  const PlantSlots slots(calendar, day(5));
  EXPECT_EQ(slots.shift_of(day(6), "early"), 0);
  EXPECT_EQ(slots.shift_of(day(7), "early"), 1);
  EXPECT_EQ(slots.shifts()[1].hours, 5);
}

TEST(PlantSlots, AShiftBeginsByTheClockOnTheWallWhenTheClocksAreChanged) {
  const ShopAhead shop = small_shop();  // Berlin changes its clocks on Sunday, 29 March 2026
  const PlantSlots slots(shop.calendar, shop.today);
  EXPECT_EQ(print(slots.begins_at({slots.day_of(day(27)), 0})), "2026-03-27T05:00:00Z");
  EXPECT_EQ(print(slots.begins_at({slots.day_of(day(30)), 0})), "2026-03-30T04:00:00Z");
}

TEST(PlantSlots, APlantWithoutShiftsHasOneADayWithoutAName) {
  catalogue::PlantCalendar calendar;
  const PlantSlots slots(calendar, day(5));
  ASSERT_EQ(slots.shifts().size(), 1u);
  EXPECT_EQ(slots.shifts()[0].hours, 24);
  EXPECT_EQ(slots.shift_of(day(8), ""), 0);
  EXPECT_TRUE(slots.works(3, 0));
}

TEST(PlantSlots, AShiftOverMidnightHasItsWholeLength) {
  catalogue::PlantCalendar calendar;
  calendar.shifts = {{"night", 22 * 60, 6 * 60, {1}}};
  EXPECT_EQ(PlantSlots(calendar, day(5)).shifts()[0].hours, 8);
}

}  // namespace
}  // namespace hw::proposal
