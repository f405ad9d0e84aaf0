#include "src/life/log_lives.h"

#include <cmath>

namespace hw::life {
namespace {

double middle(const Observed& life) { return is_exact(life) ? life.upper : 0.5 * (life.lower + life.upper); }

}  // namespace

void LogLives::find_origin(std::span<const Observed> lives) {
  double sum = 0, squares = 0;
  for (const Observed& life : lives) {
    if (!is_suspended(life)) sum += life.count * std::log(middle(life));
  }
  origin = counts.failures > 0 ? sum / counts.failures : 0;
  for (const Observed& life : lives) {
    if (is_suspended(life)) continue;
    const double y = std::log(middle(life)) - origin;
    squares += life.count * y * y;
  }
  failed_y_spread = counts.failures > 0 ? std::sqrt(squares / counts.failures) : 0;
}

void LogLives::take(std::span<const Observed> lives) {
  counts = count_lives(lives);
  find_origin(lives);
  exact.clear();
  survived.clear();
  gaps.clear();
  exact_y_sum = 0;
  for (const Observed& life : lives) {
    const double y = std::log(life.lower) - origin;
    if (is_exact(life)) {
      exact.push_back({y, life.count});
      exact_y_sum += life.count * y;
    } else if (is_suspended(life)) {
      survived.push_back({y, life.count});
    } else {
      gaps.push_back({y, std::log(life.upper) - origin, life.count});
    }
    if (life.entry > 0) survived.push_back({std::log(life.entry) - origin, -life.count});
  }
}

}  // namespace hw::life
