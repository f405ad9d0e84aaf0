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

TEST(ProposalView, OfServicesItNamesThemInsteadOfWhatStandsForThem) {
  ProposalWork work;
  work.state = ProposalState::ready;
  work.what = proposal::What::services;
  work.proposed = one_difference();
  work.proposed->differences[0].service = "yearly";
  work.proposed->services = {{"m2", "service yearly", "yearly", {"oil"}}};
  work.proposed->without_place = {{"m2", "service yearly", {"too long", {"no-place"}}, {}}};
  work.proposed->later = {{"m3", "yearly", LocalDate::of(2027, 5, 1)}};
  const ProposalView view = view_of(work);
  EXPECT_EQ(view.what, "services");
  EXPECT_EQ(view.differences->at(0).service, "yearly");
  EXPECT_EQ(view.without_place->at(0).service, "yearly");
  EXPECT_FALSE(view.without_place->at(0).task);
  EXPECT_EQ(print(view.later->at(0).due_on), "2027-05-01");
}

TEST(ProposalView, OneThatIsBeingCancelledIsCancelled) {
  ProposalWork work;
  work.is_cancelled = true;
  EXPECT_EQ(view_of(work).state, "cancelled");
}

}  // namespace
}  // namespace hw::service
