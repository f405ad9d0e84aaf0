#include "src/service/part_costs.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

const catalogue::Stopping shop_costs{};  // 80 and 60 an hour; 0.75 h and 60 to isolate

catalogue::Task seal_task() {
  catalogue::Task task;
  task.energy = catalogue::EnergyState::isolated;
  task.minutes = 90;
  return task;
}

TEST(PartCosts, PlannedIsWorkStandingAndParts) {
  catalogue::Task task = seal_task();
  task.costs = catalogue::PartCosts{.parts = 45, .failed_hours = 6, .failed_damage = 200};
  const PartCostSums sums = part_costs(task, shop_costs, 100);
  EXPECT_DOUBLE_EQ(sums.planned(), 1.5 * 60 + 1.5 * 100 + 45 + (0.75 * 100 + 60) / 3);
  EXPECT_DOUBLE_EQ(sums.failed() - sums.planned(), (0.75 * 100 + 60) * 2 / 3 + 6 * 100 + 200);
  EXPECT_FALSE(sums.is_hours_assumed);
  EXPECT_FALSE(sums.is_parts_unknown);
}

TEST(PartCosts, WhatNobodySaidIsAssumedAndSaid) {
  const PartCostSums sums = part_costs(seal_task(), shop_costs, 100);
  EXPECT_TRUE(sums.is_hours_assumed);
  EXPECT_TRUE(sums.is_parts_unknown);
  EXPECT_DOUBLE_EQ(sums.failed_standing, failed_hours_unsaid * 100);
}

TEST(PartCosts, WorkInProductionStandsNothing) {
  catalogue::Task task = seal_task();
  task.energy = catalogue::EnergyState::in_production;
  EXPECT_EQ(part_costs(task, shop_costs, 100).standing, 0);
}

}  // namespace
}  // namespace hw::service
