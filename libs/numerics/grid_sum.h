#pragma once
// The distribution of a sum of independent amounts, term by term, until it reaches a threshold. Everything lies on a
// grid: amounts are whole numbers of steps. Below the threshold each cell holds its probability; what has reached it is
// kept as one number. Exact but for rounding in the last digits.

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace hw::numerics {

struct GridAmount {
  std::int64_t steps = 0;  // at least 0
  double probability = 0;
};

class GridSum {
 public:
  // The sum begins at 0; threshold_steps at least 0 (0 is reached at once).
  explicit GridSum(std::int64_t threshold_steps);

  // Adds one more independent amount; the probabilities sum to 1.
  void add(std::span<const GridAmount> amounts);
  // P(sum >= threshold).
  double reached() const { return reached_; }

 private:
  std::vector<double> cells_;  // P(sum = steps) below the threshold
  std::vector<double> next_;
  double reached_ = 0;
};

// The largest of 1, 1/2, 1/4, 1/8, 1/10, 1/16 ... 1/1000 of which all amounts are whole multiples, to within a
// millionth of it; nothing where there is none.
std::optional<double> shared_step(std::span<const double> amounts);

}  // namespace hw::numerics
