#include "src/service/overdue_since.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

const LocalDate today = LocalDate::of(2026, 3, 12);

TriggerView on_counter(double left, double tolerance, std::string state = "overdue") {
  TriggerView trigger;
  trigger.counter = "spindle";
  trigger.left = left;
  trigger.tolerance = tolerance;
  trigger.state = std::move(state);
  return trigger;
}

// Eight hours on each of the last ten days.
CounterUse eight_a_day() {
  CounterUse use{.history = {.start = today, .days = {}, .closed = {}},
                 .counted = {},
                 .forecast = {},
                 .refused = {},
                 .lent_by = {}};
  for (int day = 10; day > 0; --day) use.counted.push_back({today - day, 8});
  return use;
}

TEST(OverdueSince, CountsBackTheDaysUntilTheToleranceWasUsedUp) {
  const CounterUse use = eight_a_day();
  EXPECT_EQ(overdue_since(on_counter(-12, 10), today, &use, 3), today) << "2 h over, 3 h of them today";
  EXPECT_EQ(overdue_since(on_counter(-15, 10), today, &use, 3), today - 1);
  EXPECT_EQ(overdue_since(on_counter(-30, 10), today, &use, 3), today - 3);
}

TEST(OverdueSince, SaysNothingWhereTheKnownDaysDoNotReachBack) {
  const CounterUse use = eight_a_day();
  EXPECT_FALSE(overdue_since(on_counter(-500, 0), today, &use, 0));
  EXPECT_FALSE(overdue_since(on_counter(-5, 0), today, nullptr, 0));
  EXPECT_FALSE(overdue_since(on_counter(-5, 10, "due"), today, &use, 0)) << "it is not overdue";
}

TEST(OverdueSince, IsExactByTheCalendar) {
  TriggerView trigger;
  trigger.calendar = "1 month";
  trigger.due_on = today - 5;
  trigger.tolerance_days = 2;
  trigger.state = "overdue";
  EXPECT_EQ(overdue_since(trigger, today, nullptr, 0), today - 2);
}

}  // namespace
}  // namespace hw::service
