#include "src/service/stop_entries.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

StopPlan plan_of_two() {
  StopPlan plan;
  plan.on = LocalDate::of(2026, 3, 7);
  plan.shift = "early";
  plan.tasks = {{.task = "filter", .title = "Replace the filter", .minutes = 20},
                {.task = "seal", .title = "Replace the seal", .minutes = 40}};
  plan.note = "before the audit";
  return plan;
}

Stop stop_of_two() {
  Stop stop;
  stop.id = "s1";
  stop.plan = plan_of_two();
  return stop;
}

TEST(StopEntries, AgreedOneTellsDayShiftTasksAndNote) {
  Entry entry;
  entry.id = "s1";
  tell_agreed(entry, plan_of_two());
  EXPECT_EQ(entry.body.stop, "s1");
  EXPECT_EQ(entry.note, "before the audit");
  EXPECT_EQ(entry.says, "stop of 2026-03-07, early: agreed: Replace the filter, Replace the seal");
  EXPECT_EQ(entry.body.stop_told->tasks->size(), 2u);
}

TEST(StopEntries, ChangedOneTellsOnlyWhatIsNew) {
  StopPlan plan = plan_of_two();
  plan.on = LocalDate::of(2026, 3, 9);
  Entry moved;
  tell_changed(moved, stop_of_two(), plan);
  EXPECT_EQ(moved.says, "stop of 2026-03-07, early: changed: now the stop of 2026-03-09, early");
  EXPECT_FALSE(moved.note);
  EXPECT_FALSE(moved.body.stop_told->tasks);
  plan = plan_of_two();
  plan.tasks.pop_back();
  Entry fewer;
  tell_changed(fewer, stop_of_two(), plan);
  EXPECT_EQ(fewer.says, "stop of 2026-03-07, early: changed: tasks: Replace the filter");
  plan = plan_of_two();
  plan.note = "bring the hoist";
  Entry noted;
  tell_changed(noted, stop_of_two(), plan);
  EXPECT_EQ(noted.says, "stop of 2026-03-07, early: changed: a note");
  EXPECT_EQ(noted.note, "bring the hoist");
}

TEST(StopEntries, WithdrawnAndClosedOnesTellWhatCameOfIt) {
  Entry withdrawn;
  tell_withdrawn(withdrawn, stop_of_two(), "a hot order");
  EXPECT_EQ(withdrawn.says, "stop of 2026-03-07, early: withdrawn: a hot order");
  Stop without_shift = stop_of_two();
  without_shift.plan.shift.clear();
  StopClose edit;
  edit.done.resize(1);
  Entry closed;
  tell_closed(closed, without_shift, without_shift.plan.tasks, edit);
  EXPECT_EQ(closed.says, "stop of 2026-03-07: closed; 1 of 2 tasks done");
  EXPECT_EQ(closed.body.stop_told->of, 2);
}

TEST(StopEntries, TheTaskThatWasDoneCarriesWhatWasFoundAndRead) {
  StopDone done;
  done.task = "filter";
  done.as_found = AsFound::worn;
  done.minutes = 25;
  done.readings = std::vector<ReadValue>{{"pressure", "bar", 5.5}};
  Entry entry;
  tell_done_in(entry, stop_of_two(), "Replace the filter", done);
  EXPECT_EQ(entry.says, "Replace the filter: done; as found: worn");
  EXPECT_EQ(entry.task, "filter");
  EXPECT_EQ(entry.body.doing->as_found, AsFound::worn);
  EXPECT_EQ(entry.body.doing->minutes, 25);
  EXPECT_EQ(entry.body.doing->readings->at(0).value, 5.5);
  done.as_found.reset();
  Entry plain;
  tell_done_in(plain, stop_of_two(), "Replace the filter", done);
  EXPECT_EQ(plain.says, "Replace the filter: done");
}

}  // namespace
}  // namespace hw::service
