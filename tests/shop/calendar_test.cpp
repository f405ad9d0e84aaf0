// Tasks by the calendar of the plant.

#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

const service::TriggerView& calendar_of(const service::TaskView& task) { return task.triggers.back(); }

TEST(CalendarTask, IsDueADateOfThePlantAfterItWasDone) {
  Scene scene("2026-03-10T23:30:00Z");  // the 11th in Berlin
  must(scene.done("grease", 1));
  EXPECT_EQ(print(*calendar_of(scene.task("grease")).due_on), "2026-04-11");
  EXPECT_EQ(calendar_of(scene.task("grease")).days_left, 31);
}

TEST(CalendarTask, TheFirstTriggerThatFallsDueLeads) {
  Scene scene("2026-03-02T06:00:00Z");
  const auto state_after = [&](int days) {
    scene.now = *parse_instant("2026-03-02T06:00:00Z") + Duration::hours(24 * days);
    return scene.task("grease").state;
  };
  EXPECT_EQ(state_after(1), "in hand");
  EXPECT_EQ(state_after(24), "coming");
  EXPECT_TRUE(calendar_of(scene.task("grease")).leads);
  EXPECT_FALSE(scene.task("grease").triggers.at(0).leads);
  EXPECT_EQ(state_after(31), "due");
  EXPECT_EQ(state_after(34), "overdue");
}

TEST(CalendarTask, CountsFromWhenItWasDoneNotFromWhenItWasEntered) {
  Scene scene("2026-03-02T12:00:00Z");
  scene.now = *parse_instant("2026-03-10T12:00:00Z");
  const Instant friday = *parse_instant("2026-03-06T12:00:00Z");
  must(mark_done(scene.shop(), "mill1", "grease", {{id_of(1), "Ada", friday, {}}, {}}, scene.now));
  EXPECT_EQ(print(*calendar_of(scene.task("grease")).due_on), "2026-04-06");
}

TEST(CalendarTask, ADeviceWhoseClockIsAYearAheadPutsNothingOffByAYear) {
  Scene scene("2026-03-10T12:00:00Z");
  const Instant next_year = *parse_instant("2027-03-10T12:00:00Z");
  const auto entry =
      must(mark_done(scene.shop(), "mill1", "grease", {{id_of(1), "Ada", next_year, {}}, {}}, scene.now));
  EXPECT_EQ(entry.device_at, next_year);
  EXPECT_EQ(print(*calendar_of(scene.task("grease")).due_on), "2026-04-10");
}

TEST(CalendarTask, AShiftsCheckIsDueInTheNextShift) {
  Scene scene("2026-03-02T06:00:00Z");  // Monday 07:00, in the early shift
  must(scene.done("look", 1));
  EXPECT_EQ(scene.task("look").state, "in hand");
  scene.now = *parse_instant("2026-03-03T05:00:00Z");
  EXPECT_EQ(scene.task("look").state, "due");
  scene.now = *parse_instant("2026-03-03T13:00:00Z");
  EXPECT_EQ(scene.task("look").state, "overdue");
}

TEST(CalendarTask, UndoneItIsDueAsBefore) {
  Scene scene("2026-03-02T06:00:00Z");
  scene.now = scene.now + Duration::hours(24 * 31);
  must(scene.done("grease", 1));
  EXPECT_EQ(scene.task("grease").state, "in hand");
  must(scene.undo(1, 2));
  EXPECT_EQ(scene.task("grease").state, "due");
}

}  // namespace
}  // namespace hw::shop
