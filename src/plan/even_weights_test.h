#pragma once
// Stops are worth trying in every slot alike.

#include <numeric>

#include "src/plan/slot_choice.h"

namespace hw::plan {

inline SlotWeights even_weights(const Model& model) {
  std::vector<float> sums(model.slots(), 1);
  std::partial_sum(sums.begin(), sums.end(), sums.begin());
  return SlotWeights(model.machines.size(), sums);
}

}  // namespace hw::plan
