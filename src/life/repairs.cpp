#include "src/life/repairs.h"

#include <cmath>

namespace hw::life {

Result<void> check_repairs(const Repairs& repairs) {
  const double end = repairs.until.value_or(1e100);
  if (!(end > 0 && end <= 1e100)) {
    return refuse(ErrorCode::bad_input, "the end of the watch is an age above 0, not {}", end);
  }
  if (repairs.ages.empty() && !repairs.until) {
    return refuse(ErrorCode::bad_input, "no failure, and no end of the watch either");
  }
  double last = 0;
  for (const double age : repairs.ages) {
    if (!(age > 0 && age <= 1e100)) return refuse(ErrorCode::bad_input, "an age above 0 is needed, not {}", age);
    if (age < last) return refuse(ErrorCode::bad_input, "the failure at {} comes after one at {}", age, last);
    if (age > end) return refuse(ErrorCode::bad_input, "the failure at {} is after the end of the watch, {}", age, end);
    last = age;
  }
  return {};
}

double end_of_watch(const Repairs& repairs) {
  return repairs.until.value_or(repairs.ages.empty() ? 0 : repairs.ages.back());
}

double failures_within(const Repairs& repairs) {
  return static_cast<double>(repairs.ages.size()) - (repairs.until ? 0 : 1);
}

}  // namespace hw::life
