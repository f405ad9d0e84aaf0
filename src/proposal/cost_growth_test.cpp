#include "src/proposal/cost_growth.h"

#include <gtest/gtest.h>

namespace hw::proposal {
namespace {

using catalogue::WorkType;

TEST(CostGrowth, WhatIsReplacedWearsFasterThanWhatIsLookedAt) {
  EXPECT_GT(growth_of(WorkType::replace).wear, growth_of(WorkType::inspect).wear);
  for (const WorkType work : {WorkType::inspect, WorkType::clean, WorkType::lubricate, WorkType::top_up,
                              WorkType::adjust, WorkType::measure, WorkType::replace, WorkType::overhaul}) {
    EXPECT_GT(growth_of(work).wear, 1) << word_of(work);
    EXPECT_GT(growth_of(work).late_day_standing_hours, 0) << word_of(work);
  }
}

TEST(CostGrowth, GuardsBrakesAccumulatorsAndInterlocksGuardPeople) {
  const auto guards = [](std::string key, std::string assembly) {
    catalogue::Task task;
    task.key = std::move(key);
    task.assembly = std::move(assembly);
    return guards_people(task);
  };
  EXPECT_TRUE(guards("test", "guards"));
  EXPECT_TRUE(guards("z-brake-test", "axes"));
  EXPECT_TRUE(guards("accumulator-charge", "hydraulics"));
  EXPECT_TRUE(guards("magnet-interlock", "table"));
  EXPECT_TRUE(guards("door-switch-test", "control"));
  EXPECT_FALSE(guards("coolant-change", "coolant"));
}

TEST(CostGrowth, OfAPartWhoseLivesMovedItsIntervalIsAsItWears) {
  catalogue::Task task;
  task.work = catalogue::WorkType::replace;
  EXPECT_EQ(growth_of(task).wear, growth_of(catalogue::WorkType::replace).wear);
  task.costs = catalogue::PartCosts{.wear = 2.4};
  EXPECT_EQ(growth_of(task).wear, 2.4);
  task.costs->wear = 0.8;
  EXPECT_EQ(growth_of(task).wear, 1.1) << "what does not wear out loses nothing by waiting, but not less than nothing";
  EXPECT_EQ(growth_of(task).late_day_standing_hours, growth_of(catalogue::WorkType::replace).late_day_standing_hours);
}

}  // namespace
}  // namespace hw::proposal
