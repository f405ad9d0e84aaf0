#include "src/plan/obstacles.h"

#include <gmock/gmock.h>

#include "src/plan/tiny_instance_test.h"

namespace hw::plan {
namespace {

using testing::HasSubstr;

std::string why_not(const Instance& instance) {
  const Model model = build_model(instance);
  Draft draft(model);
  for (int t = 0; t < static_cast<int>(instance.machines[0].tasks.size()); ++t) draft.place({0, t});
  const auto without = draft.tasks_without_place();
  return without.empty() ? "" : explain_no_place(instance, draft, without.front());
}

Task urgent_task(std::string id) {
  Task task = weekly_task(std::move(id));
  task.first_latest_day.emplace(2);
  return task;
}

TEST(Obstacles, NameTheDaysThatWouldDo) {
  Instance instance = instance_with({machine_with("m", {urgent_task("oil")})});
  instance.machines[0].blackouts = {{0, 4}};
  const std::string says = why_not(instance);
  EXPECT_THAT(says, HasSubstr("m oil cannot be placed (it has to be done first by day 2"));
  EXPECT_THAT(says, HasSubstr("3 days later"));
  EXPECT_THAT(says, HasSubstr("no blackout for m"));
}

TEST(Obstacles, NameTheHoursOfACrewThatWouldDo) {
  Instance instance = instance_with({machine_with("m", {urgent_task("oil")})});
  instance.machines[0].tasks[0].labour_hours = 4.2;  // offered are 2 and 1 overtime
  EXPECT_THAT(why_not(instance), HasSubstr("1.5 h more of crew fitters a shift"));
}

TEST(Obstacles, NameACellsPlacesAndAShiftsLength) {
  Instance instance = instance_with({machine_with("m", {urgent_task("oil")})});
  instance.cells[0].max_down = WeekTable<int>(7, {0});
  EXPECT_THAT(why_not(instance), HasSubstr("1 more machines of cell north"));
  Instance other = instance_with({machine_with("m", {urgent_task("oil")})});
  other.machines[0].tasks[0].down_hours = 9.5;
  EXPECT_THAT(why_not(other), HasSubstr("shifts 2 h longer"));
}

TEST(Obstacles, SayThatASlotIsAgreedAndWhatForbidsIt) {
  Instance instance = instance_with({machine_with("m", {weekly_task("oil")})});
  instance.machines[0].tasks[0].agreed = AgreedSlot{3, 0, std::nullopt};
  EXPECT_EQ(why_not(instance), "");
  Instance crowded = instance;
  crowded.machines[0].tasks[0].labour_hours = 3.5;
  EXPECT_THAT(why_not(crowded), HasSubstr("0.5 h more of crew fitters a shift"));
  Instance black = instance;
  black.machines[0].blackouts = {{3, 3}};
  const std::string says = why_not(black);
  EXPECT_THAT(says, HasSubstr("m oil cannot be placed"));
  EXPECT_THAT(says, HasSubstr("is agreed for day 3 shift 0"));
  EXPECT_THAT(says, HasSubstr("no blackout for m, or another slot than day 3 shift 0"));
  Instance closed = instance;
  closed.closed_days = {3};
  EXPECT_THAT(why_not(closed), HasSubstr("no closed days"));
  Instance early = instance;
  early.machines[0].tasks[0].first_earliest_day = 5;
  EXPECT_THAT(why_not(early), HasSubstr("ready 2 days earlier"));
  Instance absent = instance;
  absent.crews[0].absent = {{3, 0, 2}};
  absent.machines[0].tasks[0].labour_hours = 2;
  EXPECT_THAT(why_not(absent), HasSubstr("1 h more of crew fitters a shift"));
}

TEST(Obstacles, AreTheLeastThatHelpsOfEachLimitAlone) {
  Instance instance = instance_with({machine_with("m", {urgent_task("oil")})});
  instance.machines[0].blackouts = {{0, 4}};
  const Model model = build_model(instance);
  const Draft nothing(model);
  const NoPlace found = find_obstacles(instance, nothing, {0, 0});
  EXPECT_TRUE(found.is_impossible);
  ASSERT_EQ(found.ways.size(), 2u);
  EXPECT_EQ(found.ways[0].relaxation, Relaxation::days_later);
  EXPECT_EQ(found.ways[0].amount, 3);
  EXPECT_EQ(found.ways[1].relaxation, Relaxation::no_blackout);
}

TEST(Obstacles, TellWorkInTheWayFromLimitsThatNothingCanKeep) {
  Instance instance = instance_with({machine_with("m", {urgent_task("oil"), urgent_task("belt")})});
  instance.machines[0].tasks[0].labour_hours = 3;
  instance.machines[0].tasks[1].labour_hours = 3;
  for (Task& task : instance.machines[0].tasks) task.first_latest_day.emplace(0);
  const std::string says = why_not(instance);
  EXPECT_THAT(says, HasSubstr("m belt found no place beside the other work"));
  EXPECT_THAT(says, HasSubstr("3 h more of crew fitters"));
  EXPECT_THAT(says, HasSubstr("1 days later"));
}

}  // namespace
}  // namespace hw::plan
