#include "src/plan/slot_choice.h"

#include <gtest/gtest.h>

#include "src/plan/even_weights_test.h"
#include "src/plan/tiny_instance_test.h"

namespace hw::plan {
namespace {

// Two machines, 28 days, three shifts.
Model some_weeks() {
  return build_model(instance_with({machine_with("a", {weekly_task("oil")}, 3), machine_with("b", {}, 3)}, 28, 3));
}

TEST(SlotChoice, Property_NearIsAtMostAWeekAwayAndEverySuchSlotIsChosen) {
  const Model model = some_weeks();
  const SlotWeights weights = even_weights(model);
  const SlotChoice choice(model, weights);
  numerics::Random random(1);
  for (const int from : {0, 3, 27, 28 + 10, 2 * 28 + 27}) {
    std::vector<int> chosen(model.slots());
    for (int i = 0; i < 5000; ++i) ++chosen[static_cast<std::size_t>(choice.near(0, from, random))];
    for (std::size_t slot = 0; slot < model.slots(); ++slot) {
      const bool is_near = std::abs(static_cast<int>(slot) % 28 - from % 28) <= 7;
      EXPECT_EQ(chosen[slot] > 0, is_near) << "from " << from << " to " << slot;
    }
  }
}

TEST(SlotChoice, SlotsAreChosenAsOftenAsTheyWeigh) {
  const Model model = some_weeks();
  SlotWeights weights(2, std::vector<float>(model.slots()));
  for (std::size_t slot = 0; slot < model.slots(); ++slot) {
    weights[1][slot] = (slot > 0 ? weights[1][slot - 1] : 0) + (slot == 5 ? 30 : slot == 28 + 6 ? 10 : 1e-4F);
  }
  const SlotChoice choice(model, weights);
  numerics::Random random(2);
  int fives = 0;
  int fives_near = 0;
  for (int i = 0; i < 4000; ++i) {
    fives += choice.anywhere(1, random) == 5 ? 1 : 0;
    fives_near += choice.near(1, 10, random) == 5 ? 1 : 0;
  }
  EXPECT_NEAR(fives, 3000, 150);
  EXPECT_NEAR(fives_near, 3000, 150);
}

}  // namespace
}  // namespace hw::plan
