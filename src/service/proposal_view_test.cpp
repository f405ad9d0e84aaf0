#include <gtest/gtest.h>

#include "src/service/proposal_work.h"

namespace hw::service {
namespace {

proposal::Proposed one_difference() {
  proposal::Proposed proposed;
  proposed.now.cost.stops = 300;
  proposed.then.cost.stops = 200;
  proposed.bound = 190;
  proposed.rule = plan::Habit::with_next_14_days;
  proposed.rules = {{plan::Habit::due_day, 400, 0}, {plan::Habit::with_next_14_days, 300, 0}};
  proposal::Difference moved;
  moved.key = "s1";
  moved.kind = proposal::DifferenceKind::moved;
  moved.machine = "m1";
  moved.stop = "s1";
  moved.from = proposal::StopPlace{LocalDate::of(2026, 3, 9), "early"};
  moved.to = proposal::StopPlace{LocalDate::of(2026, 3, 14), "early"};
  moved.state = plan::EnergyState::locked;
  proposed.differences = {moved};
  return proposed;
}

TEST(ProposalView, ARunningOneTellsItsShareAndNothingElse) {
  ProposalWork work;
  work.share = 0.25;
  const ProposalView view = view_of(work);
  EXPECT_EQ(view.state, "running");
  EXPECT_EQ(view.share, 0.25);
  EXPECT_FALSE(view.differences);
  EXPECT_FALSE(view.says);
}

TEST(ProposalView, AReadyOneTellsCostsInTheContractsWords) {
  ProposalWork work;
  work.state = ProposalState::ready;
  work.currency = "SEK";
  work.proposed = one_difference();
  work.accepted = {"s1"};
  const ProposalView view = view_of(work);
  EXPECT_EQ(view.currency, "SEK");
  EXPECT_EQ(view.saving, 100);
  EXPECT_DOUBLE_EQ(*view.gap, 0.05);
  EXPECT_EQ(view.rule, "with next 14 days");
  EXPECT_DOUBLE_EQ(view.rules->at(0).saving_share, 0.5);
  const DifferenceView& moved = view.differences->at(0);
  EXPECT_EQ(moved.kind, "moved");
  EXPECT_EQ(moved.energy, "isolated");
  EXPECT_EQ(print(moved.from->on), "2026-03-09");
  EXPECT_EQ(print(*moved.on), "2026-03-14");
  EXPECT_TRUE(moved.accepted);
}

TEST(ProposalView, OneThatIsBeingCancelledIsCancelled) {
  ProposalWork work;
  work.is_cancelled = true;
  EXPECT_EQ(view_of(work).state, "cancelled");
}

}  // namespace
}  // namespace hw::service
