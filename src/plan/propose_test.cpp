#include "src/plan/propose.h"

#include <gtest/gtest.h>

#include "src/plan/instance_file.h"
#include "src/plan/price_ascent.h"
#include "src/plan/trying_all_test.h"

namespace hw::plan {
namespace {

constexpr std::uint64_t a_seed_with_a_plan = 2;  // of chance_instance, by trying all

Proposal propose_with(const Instance& instance, const ProposeOptions& options) {
  return propose_stops(instance, build_model(instance), options);
}

TEST(Propose, Property_FindsTheBestOfAllPlansAndABoundThatIsNotAboveIt) {
  int with_a_plan = 0;
  for (std::uint64_t seed = 1; seed <= 16; ++seed) {
    SCOPED_TRACE(seed);
    const Instance instance = chance_instance(seed);
    const auto least = TryingAll(instance).least_cost();
    const Proposal proposal = propose_with(instance, {.gap_target = 0, .effort = 0.3});
    EXPECT_EQ(proposal.without_place.empty(), least.has_value());
    if (!least) continue;
    ++with_a_plan;
    EXPECT_NEAR(proposal.cost.total(), *least, 1e-6);
    EXPECT_LE(proposal.bound, *least + 1e-6);
    EXPECT_GT(proposal.bound, 0.5 * *least);
  }
  EXPECT_GE(with_a_plan, 6);
}

TEST(Propose, Property_AgreedSlotsClosedDaysAndAbsencesAreKeptAtTheLeastCost) {
  int with_a_plan = 0;
  int moved = 0;
  for (std::uint64_t seed = 1; seed <= 24; ++seed) {
    SCOPED_TRACE(seed);
    const Instance instance = chance_shop(seed);
    const auto least = TryingAll(instance).least_cost();
    const Proposal proposal = propose_with(instance, {.gap_target = 0, .effort = 0.3});
    EXPECT_EQ(proposal.without_place.empty(), least.has_value());
    if (!least) continue;
    ++with_a_plan;
    moved += proposal.cost.moving.value_or(0) > 0 ? 1 : 0;
    EXPECT_TRUE(evaluate_plan(instance, proposal.plan).problems.empty());
    EXPECT_NEAR(proposal.cost.total(), *least, 1e-6);
    EXPECT_LE(proposal.bound, *least + 1e-6);
  }
  EXPECT_GE(with_a_plan, 6);
  EXPECT_GE(moved, 1);
}

TEST(Propose, Property_VisitsOfCrewsThatTravelAreMadeAtTheLeastCost) {
  int with_a_plan = 0;
  int with_visits = 0;
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    SCOPED_TRACE(seed);
    const Instance instance = chance_travel(seed);
    const auto least = TryingAll(instance).least_cost();
    const Proposal proposal = propose_with(instance, {.gap_target = 0, .effort = 0.3});
    EXPECT_EQ(proposal.without_place.empty(), least.has_value());
    if (!least) continue;
    ++with_a_plan;
    with_visits += proposal.cost.travel.value_or(0) > 0 ? 1 : 0;
    EXPECT_TRUE(evaluate_plan(instance, proposal.plan).problems.empty());
    EXPECT_NEAR(proposal.cost.total(), *least, 1e-6);
    EXPECT_LE(proposal.bound, *least + 1e-6);
  }
  EXPECT_GE(with_a_plan, 10);
  EXPECT_GE(with_visits, 8);
}

// Four machines of one shop whose tasks fall due on days 4 to 6: one visit for all, and the bound knows of it.
TEST(Propose, SeveralMachinesOfAShopAreDoneInOneVisit) {
  std::vector<Machine> machines;
  for (int m = 0; m < 4; ++m) {
    machines.push_back(machine_with("m" + std::to_string(m), {weekly_task("seal")}));
    machines.back().place = "east";
    machines.back().tasks[0].first_due_days.fill(4 + m % 3);
    machines.back().tasks[0].first_latest_day.emplace(7);
  }
  Instance instance = instance_with(machines, 8);
  instance.crews[0].hours = every_shift(1, 8);
  instance.cells[0].max_down = WeekTable<int>(7, {4});
  const double bound_without = propose_with(instance, {.gap_target = 0, .effort = 0.3}).bound;
  instance.crews[0].travel = {{"east", 300, 2}};
  const Proposal proposal = propose_with(instance, {.gap_target = 0, .effort = 0.3});
  EXPECT_EQ(proposal.cost.travel, 300);
  EXPECT_GT(proposal.bound, bound_without + 280);
}

TEST(PriceAscent, Property_EveryStepsBoundIsNotAboveTheBestPlan) {
  for (std::uint64_t seed = 20; seed <= 30; ++seed) {
    SCOPED_TRACE(seed);
    const Instance instance = seed % 3 == 0   ? chance_instance(seed)
                              : seed % 3 == 1 ? chance_shop(seed)
                                              : chance_travel(seed);
    const auto least = TryingAll(instance).least_cost();
    if (!least) continue;
    const Model model = build_model(instance);
    PriceAscent ascent(model, 1);
    for (int i = 0; i < 300; ++i) EXPECT_LE(ascent.step(), *least + 1e-6);
  }
}

// Shares must never sum to more than opening costs: that is what makes the bound one.
TEST(PriceAscent, SharesSumToNoMoreThanOpeningCosts) {
  const Instance instance = chance_instance(4);
  const Model model = build_model(instance);
  PriceAscent ascent(model, 2);
  for (int i = 0; i < 50; ++i) ascent.step();
  for (std::size_t m = 0; m < model.machines.size(); ++m) {
    const SharedOpenings& machine = ascent.machine(m);
    for (std::size_t slot = 0; slot < model.slots(); ++slot) {
      double stopped = 0;
      double all = 0;
      for (std::size_t t = 0; t < model.machines[m].tasks.size(); ++t) {
        if (machine.shares(t).empty()) continue;
        const auto share = static_cast<double>(machine.shares(t)[slot]);
        EXPECT_GE(share, 0);
        all += share;
        stopped += model.machines[m].tasks[t].state == EnergyState::stopped ? share : 0;
      }
      EXPECT_LE(stopped, static_cast<double>(machine.opening_price(EnergyState::stopped, slot)));
      EXPECT_LE(all, static_cast<double>(machine.opening_price(EnergyState::locked, slot)));
    }
  }
}

TEST(Propose, GivesTheSamePlanForTheSameSeedAndThreads) {
  const Instance instance = chance_instance(a_seed_with_a_plan);
  for (const std::size_t threads : {1, 2, 3}) {
    const ProposeOptions options{.gap_target = 0, .threads = threads, .seed = 7, .effort = 0.05};
    EXPECT_EQ(print_plan(propose_with(instance, options).plan), print_plan(propose_with(instance, options).plan));
  }
}

TEST(Propose, StoppedAtOnceStillGivesAPlanThatKeepsAllLimits) {
  const Instance instance = chance_instance(a_seed_with_a_plan);
  const Proposal proposal = propose_with(instance, {.time_used = [] { return 1.0; }});
  const PlanVerdict verdict = evaluate_plan(instance, proposal.plan);
  EXPECT_TRUE(proposal.without_place.empty());
  EXPECT_TRUE(verdict.problems.empty()) << verdict.problems.front();
  EXPECT_NEAR(*proposal.plan.claimed_cost, verdict.cost.total(), 1e-9);
  EXPECT_LE(proposal.bound, verdict.cost.total());
}

TEST(Propose, AnInstanceWithoutMachinesOrTasksHasAnEmptyPlan) {
  EXPECT_TRUE(propose_with(instance_with({}), {.effort = 0.01}).plan.stops.empty());
  EXPECT_TRUE(propose_with(instance_with({machine_with("m", {})}), {.effort = 0.01}).plan.stops.empty());
}

TEST(Propose, SafetyLimitsAreKeptHoweverDear) {
  Task critical = weekly_task("brake");
  critical.first_latest_day.emplace(3);
  critical.max_gap_days = 4;
  Instance instance = instance_with({machine_with("m", {critical})}, 21);
  instance.machines[0].stop.stopped.cost = 5000;
  instance.machines[0].stop.locked.cost = 5000;
  const Proposal proposal = propose_with(instance, {.effort = 0.1});
  EXPECT_TRUE(evaluate_plan(instance, proposal.plan).problems.empty());
  EXPECT_GE(proposal.plan.stops.size(), 4u);
}

}  // namespace
}  // namespace hw::plan
