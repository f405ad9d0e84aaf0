#include "src/life/observed.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace hw::life {
namespace {

constexpr double age_max = 1e100;
constexpr double count_max = 1e9;

bool is_age(double age) { return age >= 0 && age <= age_max; }

ObservedFault fault(ObservedField field, std::string says) { return {field, std::move(says)}; }

std::optional<ObservedFault> fault_of_ages(const Observed& life) {
  using enum ObservedField;
  if (!is_age(life.lower)) return fault(lower, fmt::format("an age from 0 to 1e100, not {}", life.lower));
  if (is_suspended(life)) {
    if (life.lower > 0) return std::nullopt;
    return fault(lower, "a part taken out good has an age above 0, one that failed has its age in upper");
  }
  if (!is_age(life.upper)) return fault(upper, fmt::format("an age from 0 to 1e100, or nothing, not {}", life.upper));
  if (life.upper < life.lower) {
    return fault(upper, fmt::format("{} is below lower, {}: at least that is needed", life.upper, life.lower));
  }
  if (life.upper == 0) return fault(upper, "a failure at age 0 is no life: an age above 0 is needed");
  return std::nullopt;
}

}  // namespace

std::optional<ObservedFault> fault_of(const Observed& life) {
  using enum ObservedField;
  if (auto found = fault_of_ages(life)) return found;
  if (!(life.count >= 1 && life.count <= count_max && life.count == std::floor(life.count))) {
    return fault(count, fmt::format("a whole number from 1 to 1e9, not {}", life.count));
  }
  if (!is_age(life.entry)) return fault(entry, fmt::format("an age from 0 to 1e100, or nothing, not {}", life.entry));
  const bool ends_at_once = life.entry > 0 && (is_exact(life) || is_suspended(life)) && life.entry >= life.lower;
  if (ends_at_once || life.entry > life.lower) {
    return fault(entry, fmt::format("{} is not before the age seen, {}", life.entry, life.lower));
  }
  return std::nullopt;
}

double oldest_age(std::span<const Observed> lives) {
  double oldest = 0;
  for (const Observed& one : lives) oldest = std::max(oldest, is_suspended(one) ? one.lower : one.upper);
  return oldest;
}

LifeCounts count_lives(std::span<const Observed> lives) {
  LifeCounts counts;
  for (const Observed& life : lives) {
    (is_suspended(life) ? counts.suspensions : counts.failures) += life.count;
    if (is_exact(life)) counts.exact += life.count;
  }
  return counts;
}

}  // namespace hw::life
