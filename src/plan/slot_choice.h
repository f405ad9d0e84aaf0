#pragma once
// Slots that are worth trying for a machine's stops, drawn by chance: mostly where the relaxed plans open stops.

#include <vector>

#include "libs/numerics/random.h"
#include "src/plan/model.h"

namespace hw::plan {

// Where stops are worth trying: [machine][slot], the sum up to that slot of weights above 0.
using SlotWeights = std::vector<std::vector<float>>;

class SlotChoice {
 public:
  // Both must outlive this.
  SlotChoice(const Model& model, const SlotWeights& weights) : model_(&model), weights_(&weights) {}

  // Any slot, by the machine's weights.
  int anywhere(int machine, numerics::Random& random) const;
  // Of those at most a week away, by the same.
  int near(int machine, int slot, numerics::Random& random) const;

 private:
  const Model* model_;
  const SlotWeights* weights_;
};

}  // namespace hw::plan
