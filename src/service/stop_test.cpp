#include "src/service/stop.h"

#include <algorithm>
#include <random>

#include <gtest/gtest.h>

namespace hw::service {
namespace {

Instant at_minute(int minute) { return *parse_instant("2026-03-02T06:00:00Z") + Duration::seconds(60 * minute); }

StopPlan plan_on(int day, std::vector<std::string> tasks) {
  StopPlan plan;
  plan.on = LocalDate::of(2026, 3, static_cast<unsigned>(day));
  plan.shift = "early";
  for (std::string& task : tasks) plan.tasks.push_back({.task = task, .title = task, .work = "clean"});
  return plan;
}

Entry told(std::string_view kind, std::int64_t ordinal, int minute) {
  Entry entry;
  entry.id = fmt::format("e{}", ordinal);
  entry.ordinal = ordinal;
  entry.kind = kind;
  entry.machine = "m01";
  entry.by = "Ada";
  entry.happened_at = at_minute(minute);
  entry.body.stop = "e1";
  return entry;
}

Entry told_plan(std::string_view kind, std::int64_t ordinal, int minute, StopPlan plan) {
  Entry entry = told(kind, ordinal, minute);
  entry.body.plan = std::move(plan);
  return entry;
}

Entry told_done(std::int64_t ordinal, int minute, std::string task, AsFound as_found) {
  Entry entry = told("task done", ordinal, minute);
  entry.task = std::move(task);
  entry.body.doing = TaskDoing{.as_found = as_found};
  return entry;
}

TEST(Stop, IsWhatItsEntriesComeTo) {
  Entry closed = told_plan(stop_closed, 5, 300, plan_on(4, {"drain", "filter"}));
  closed.by = "Bo";
  closed.note = "went well";
  closed.body.times = StopTimes{at_minute(200), at_minute(290)};
  const auto stop = stop_of({told_plan(stop_agreed, 1, 0, plan_on(3, {"filter"})),
                             told_plan(stop_changed, 2, 10, plan_on(4, {"drain", "filter"})),
                             told_done(3, 290, "filter", AsFound::worn), closed});
  ASSERT_TRUE(stop);
  EXPECT_EQ(stop->id, "e1");
  EXPECT_EQ(stop->plan.on, LocalDate::of(2026, 3, 4));
  EXPECT_EQ(stop->by, "Ada");
  EXPECT_EQ(stop->at, at_minute(0));
  EXPECT_EQ(stop->version, 3);
  EXPECT_EQ(stop->state, StopState::closed);
  EXPECT_EQ(stop->closed->by, "Bo");
  EXPECT_EQ(stop->closed->began_at, at_minute(200));
  EXPECT_EQ(stop->closed->note, "went well");
  ASSERT_EQ(stop->done.size(), 1u);
  EXPECT_EQ(stop->done[0].entry, "e3");
  EXPECT_EQ(stop->done[0].as_found, AsFound::worn);
  EXPECT_TRUE(has_task(*stop, "drain"));
  EXPECT_FALSE(has_task(*stop, "seal"));
}

TEST(Stop, WithoutTheEntryThatAgreesItThereIsNone) {
  EXPECT_FALSE(stop_of({}));
  EXPECT_FALSE(stop_of({told(stop_withdrawn, 2, 10)}));
}

TEST(Stop, WhatHappenedAfterItsEndChangesNothing) {
  Entry withdrawn = told(stop_withdrawn, 3, 5);  // told late: before the change happened
  withdrawn.body.why = "a hot order";
  const auto stop = stop_of({told_plan(stop_agreed, 1, 0, plan_on(3, {"filter"})),
                             told_plan(stop_changed, 2, 10, plan_on(4, {"drain"})), withdrawn});
  EXPECT_EQ(stop->state, StopState::withdrawn);
  EXPECT_EQ(stop->withdrawn->why, "a hot order");
  EXPECT_EQ(stop->plan.on, LocalDate::of(2026, 3, 3));
  EXPECT_EQ(stop->version, 3) << "a version that somebody saw never comes again";
}

TEST(Stop, ACorrectionOfItsEntriesChangesNothing) {
  const auto stop = stop_of({told_plan(stop_agreed, 1, 0, plan_on(3, {"filter"})), told("correction", 2, 10)});
  EXPECT_EQ(stop->version, 1);
}

TEST(Stop, Property_TheOrderInWhichItsEntriesAreGivenDoesNotMatter) {
  std::vector<Entry> entries{told_plan(stop_agreed, 1, 0, plan_on(3, {"filter"})),
                             told_plan(stop_changed, 2, 10, plan_on(4, {"drain"})),
                             told_plan(stop_changed, 3, 10, plan_on(5, {"drain", "filter"})),
                             told_done(4, 8, "drain", AsFound::good), told(stop_closed, 5, 40)};
  std::mt19937 random(20260302);
  for (int i = 0; i < 120; ++i) {
    std::shuffle(entries.begin(), entries.end(), random);
    const auto stop = stop_of(entries);
    ASSERT_TRUE(stop);
    EXPECT_EQ(stop->plan.on, LocalDate::of(2026, 3, 5)) << "of one moment the later kept counts";
    EXPECT_EQ(stop->state, StopState::closed);
    EXPECT_EQ(stop->done.size(), 1u);
  }
}

TEST(Stop, AreShownByWhenTheyBegin) {
  Stop one;
  Stop other;
  one.plan.begins_at = at_minute(5);
  other.plan.begins_at = at_minute(6);
  EXPECT_TRUE(begins_before(one, other));
  EXPECT_FALSE(begins_before(other, one));
}

}  // namespace
}  // namespace hw::service
