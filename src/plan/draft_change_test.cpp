#include "src/plan/draft_change.h"

#include <gtest/gtest.h>

#include "src/plan/tiny_instance_test.h"

namespace hw::plan {
namespace {

TEST(DraftChange, IsTakenBackWhereItMakesThePlanDearerThanIsAllowed) {
  Instance instance = instance_with({machine_with("m", {weekly_task("oil"), weekly_task("belt")})});
  for (Task& task : instance.machines[0].tasks) task.first_latest_day.emplace(6);
  const Model model = build_model(instance);
  Draft draft(model);
  draft.place({0, 0});
  draft.place({0, 1});
  const Choice before = draft.choice();
  const double cost = draft.cost();
  DraftChange change(draft);
  numerics::Random random(1);
  change.begin();
  change.allow({0}, random);
  std::vector<char> is_banned(model.slots(), 0);
  is_banned[static_cast<std::size_t>(before[0][0].front())] = 1;
  change.place({0, 0}, {nullptr, is_banned.data()});
  EXPECT_NE(draft.choice(), before);
  EXPECT_FALSE(change.keep_or_take_back());
  EXPECT_EQ(draft.choice(), before);
  EXPECT_NEAR(draft.cost(), cost, 1e-9);
  change.begin();
  change.allow({1e9}, random);
  change.place({0, 0}, {nullptr, is_banned.data()});
  EXPECT_TRUE(change.keep_or_take_back());
  EXPECT_EQ(change.touched().size(), 1u);
  EXPECT_GT(draft.cost(), cost);
}

TEST(DraftChange, OffersTheSlotsInWhichTheMachineStandsByDay) {
  const Model model = build_model(instance_with({machine_with("m", {weekly_task("oil")}, 2)}, 7, 2));
  Draft draft(model);
  draft.put({0, 0}, {1, 7 + 5});
  const DraftChange change(draft);
  Slots open;
  change.find_open(0, open);
  change.add_by_day(3, open);
  change.add_by_day(3, open);
  EXPECT_EQ(open, (Slots{1, 3, 7 + 5}));
}

}  // namespace
}  // namespace hw::plan
