#include "src/service/task_forecast.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

const LocalDate today = LocalDate::of(2026, 3, 2);

CounterUse eight_a_day() {
  CounterUse use{.history = {.start = today, .days = {}, .closed = {}},
                 .counted = {},
                 .forecast = {},
                 .refused = {},
                 .lent_by = {}};
  for (int day = 70; day > 0; --day) use.history.days.push_back({today - day, 8});
  use.forecast = *due::UseForecast::prepare(use.history);
  return use;
}

TaskView task_on(double left, std::optional<LocalDate> calendar_day = {}) {
  TaskView task;
  TriggerView counter;
  counter.counter = "spindle";
  counter.left = left;
  counter.tolerance = 16;
  counter.state = "in hand";
  task.triggers.push_back(counter);
  if (!calendar_day) return task;
  TriggerView calendar;
  calendar.calendar = "1 month";
  calendar.due_on = *calendar_day;
  calendar.state = "in hand";
  task.triggers.push_back(calendar);
  return task;
}

ForecastView forecast(const TaskView& task, const CounterUse* use, double used_today = 0) {
  return forecast_view(
      task, today, [&](const std::string&) { return use; }, [&](const std::string&) { return used_today; });
}

TEST(TaskForecast, WhatIsLeftCountsFromTheBeginningOfToday) {
  const CounterUse use = eight_a_day();
  const auto morning = forecast(task_on(36), &use);
  const auto evening = forecast(task_on(28), &use, 8);
  EXPECT_EQ(morning.median, evening.median) << "a day's work changes no date";
  EXPECT_EQ(morning.median, OrNull<LocalDate>(today + 4));
  EXPECT_GT(*morning.overdue_median, *morning.median);
}

TEST(TaskForecast, TheFirstOfSeveralTriggersDecides) {
  const CounterUse use = eight_a_day();
  const auto early = forecast(task_on(400, today + 3), &use);
  EXPECT_EQ(early.median, OrNull<LocalDate>(today + 3));
  EXPECT_EQ(early.leads, "1 month");
  EXPECT_EQ(forecast(task_on(16, today + 30), &use).leads, "spindle");
}

TEST(TaskForecast, WhatIsUsedUpIsDueTodayAlsoWithoutAForecast) {
  const auto view = forecast(task_on(-1), nullptr);
  EXPECT_EQ(view.median, OrNull<LocalDate>(today));
  EXPECT_TRUE(view.refused) << "it says that nothing is known of its use";
}

TEST(TaskForecast, NeverIsLaterThanEveryDay) {
  due::DueQuantiles never, soon;
  soon.fill(today);
  EXPECT_EQ(first_of({never, soon}), soon);
  EXPECT_EQ(first_of({never, never}), never);
}

}  // namespace
}  // namespace hw::service
