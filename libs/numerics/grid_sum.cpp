#include "libs/numerics/grid_sum.h"

#include <algorithm>
#include <cmath>

#include "libs/values/assert.h"

namespace hw::numerics {

GridSum::GridSum(std::int64_t threshold_steps) {
  HW_ASSERT(threshold_steps >= 0, "a threshold of at least 0");
  cells_.assign(static_cast<std::size_t>(threshold_steps), 0.0);
  if (cells_.empty()) {
    reached_ = 1;
  } else {
    cells_.front() = 1;
  }
}

void GridSum::add(std::span<const GridAmount> amounts) {
  next_.assign(cells_.size(), 0.0);
  for (const GridAmount& amount : amounts) {
    HW_ASSERT(amount.steps >= 0, "an amount of at least 0");
    const std::size_t shift = std::min(static_cast<std::size_t>(amount.steps), cells_.size());
    const std::size_t staying = cells_.size() - shift;
    for (std::size_t n = 0; n < staying; ++n) next_[n + shift] += cells_[n] * amount.probability;
    for (std::size_t n = staying; n < cells_.size(); ++n) reached_ += cells_[n] * amount.probability;
  }
  cells_.swap(next_);
}

std::optional<double> shared_step(std::span<const double> amounts) {
  const auto fits = [&](double step) {
    return std::all_of(amounts.begin(), amounts.end(), [&](double amount) {
      const double steps = amount / step;
      return std::abs(steps - std::round(steps)) < 1e-6;
    });
  };
  for (const double parts :
       {1.0, 2.0, 4.0, 8.0, 10.0, 16.0, 20.0, 32.0, 40.0, 50.0, 64.0, 100.0, 200.0, 500.0, 1000.0}) {
    if (fits(1 / parts)) return 1 / parts;
  }
  return std::nullopt;
}

}  // namespace hw::numerics
