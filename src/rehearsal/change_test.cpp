#include "src/rehearsal/change.h"

#include <gtest/gtest.h>

#include "src/rehearsal/years_test.h"

namespace hw::rehearsal {
namespace {

std::string refusal(const Change& change) {
  const auto after = changed(even_shop({task_every("oil", 100, 20)}), std::vector{change});
  return after ? "accepted" : after.error().message;
}

TEST(Change, ConcernsEveryMachineOfTheKindAndLeavesTheHeadsUp) {
  ShopYear shop = even_shop({task_every("oil", 100, 20)});
  shop.machines.push_back(shop.machines[0]);
  shop.machines[1].key = "m2";
  const auto after = changed(shop, std::vector<Change>{{"lathe", "oil", "operating", 140}});
  ASSERT_TRUE(after);
  for (const Machine& machine : after->machines) {
    EXPECT_EQ(machine.tasks[0].intervals[0].length, 140);
    EXPECT_EQ(machine.tasks[0].intervals[0].heads_up, 20);
  }
}

TEST(Change, AHeadsUpShrinksWithItsInterval) {
  const auto after =
      changed(even_shop({task_every("oil", 100, 20)}), std::vector<Change>{{"lathe", "oil", "operating", 10}});
  ASSERT_TRUE(after);
  EXPECT_DOUBLE_EQ(after->machines[0].tasks[0].intervals[0].heads_up, 2);
}

TEST(Change, WhatItCannotBeIsRefused) {
  EXPECT_EQ(refusal({"mill", "oil", "operating", 50}),
            "changes[0]: no machine of the kind \"mill\" has a task \"oil\" with an interval on operating");
  EXPECT_EQ(refusal({"lathe", "oil", std::nullopt, 50}),
            "changes[0]: no machine of the kind \"lathe\" has a task \"oil\" with an interval in days");
  EXPECT_EQ(refusal({"lathe", "oil", "operating", 0}), "changes[0].interval: 0 must be above 0");
}

}  // namespace
}  // namespace hw::rehearsal
