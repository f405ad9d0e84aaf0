#include "src/plan/slot_calendar.h"

#include <gtest/gtest.h>

#include "src/plan/tiny_instance_test.h"

namespace hw::plan {
namespace {

TEST(SlotCalendar, WeekdaysRepeatAndClosedDaysHaveNeitherProductionNorPeople) {
  Instance instance = instance_with({machine_with("m", {weekly_task("oil")}, 2)}, 21, 2);
  instance.machines[0].loss_per_hour[2][1] = 7;
  instance.closed_days = {9};
  EXPECT_EQ(loss_per_hour(instance, instance.machines[0], {2, 1}), 7);
  EXPECT_EQ(loss_per_hour(instance, instance.machines[0], {9, 1}), 0);
  EXPECT_EQ(loss_per_hour(instance, instance.machines[0], {16, 1}), 7);
  EXPECT_EQ(crew_hours(instance, instance.crews[0], {9, 0}).offered, 0);
  EXPECT_EQ(crew_hours(instance, instance.crews[0], {9, 0}).overtime, 0);
}

TEST(SlotCalendar, AbsencesTakeHoursOfferedAndNoOvertime) {
  Instance instance = instance_with({}, 7);
  instance.crews[0].absent = {{1, 0, 0.5}, {2, 0, 5}};
  EXPECT_EQ(crew_hours(instance, instance.crews[0], {1, 0}).offered, 1.5);
  EXPECT_EQ(crew_hours(instance, instance.crews[0], {2, 0}).offered, 0);
  EXPECT_EQ(crew_hours(instance, instance.crews[0], {2, 0}).overtime, 1);
}

TEST(SlotCalendar, BlackoutsReachFromTheirFirstDayToTheirLast) {
  Machine machine = machine_with("m", {});
  machine.blackouts = {{2, 3}};
  EXPECT_TRUE(may_stop(machine, 1));
  EXPECT_FALSE(may_stop(machine, 2));
  EXPECT_FALSE(may_stop(machine, 3));
  EXPECT_TRUE(may_stop(machine, 4));
}

}  // namespace
}  // namespace hw::plan
