#include "src/plan/shared_visits.h"

#include <gtest/gtest.h>

#include "src/plan/price_ascent.h"
#include "src/plan/tiny_instance_test.h"

namespace hw::plan {
namespace {

// Shares must never sum to more than the visit costs: that is what makes the bound one.
TEST(SharedVisit, Property_SharesSumToNoMoreThanTheVisitCosts) {
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    SCOPED_TRACE(seed);
    const Model model = build_model(chance_travel(seed));
    PriceAscent ascent(model, 2);
    for (int i = 0; i < 60; ++i) ascent.step();
    for (std::size_t v = 0; v < model.visits.size(); ++v) {
      const SharedVisit& visit = ascent.visit(v);
      for (std::size_t slot = 0; slot < model.slots(); ++slot) {
        double sum = 0;
        for (std::size_t i = 0; i < visit.tasks().size(); ++i) {
          EXPECT_GE(visit.shares(i)[slot], 0);
          sum += static_cast<double>(visit.shares(i)[slot]);
        }
        EXPECT_LE(sum, static_cast<double>(visit.price()[slot]));
      }
    }
  }
}

// Two tasks begin with half of it each; one that goes there alone comes to bear nearly all of it.
TEST(SharedVisit, WhoUsesASlotComesToPayForIt) {
  Instance instance = instance_with({machine_with("a", {weekly_task("oil")}), machine_with("b", {weekly_task("oil")})});
  for (Machine& machine : instance.machines) machine.place = "east";
  instance.crews[0].travel = {{"east", 100, 1}};
  const Model model = build_model(instance);
  SharedVisit visit(model, 0);
  EXPECT_NEAR(visit.shares(0)[3], 50, 0.01);
  const std::vector<float> labour(7, 20);  // an hour's price: the visit's one costs it too
  std::vector<double> hours(7);
  for (int i = 0; i < 40; ++i) {
    visit.follow(0, {3}, hours);
    visit.follow(1, {}, hours);
    visit.raise(1, labour);
  }
  EXPECT_NEAR(visit.price()[3], 120, 1e-3);
  EXPECT_GT(visit.shares(0)[3], 119);
  EXPECT_NEAR(visit.shares(0)[2], 60, 0.01);
  EXPECT_GT(hours[3], 20);  // of 40: the more the more it pays
}

TEST(SharedVisit, NobodyComesWhereTheHoursForTheWayAreNotThere) {
  Instance instance = instance_with({machine_with("a", {weekly_task("oil")})});
  instance.machines[0].place = "east";
  instance.crews[0].travel = {{"east", 100, 2}};
  instance.crews[0].hours[2] = {0.5};  // and 1 h of overtime
  const Model model = build_model(instance);
  const SharedVisit visit(model, 0);
  EXPECT_TRUE(is_allowed(static_cast<double>(visit.shares(0)[1])));
  EXPECT_FALSE(is_allowed(static_cast<double>(visit.shares(0)[2])));
}

}  // namespace
}  // namespace hw::plan
