#include "src/condition/rating_life.h"

#include <cmath>

namespace hw::condition {
namespace {

Result<void> check_above_zero(double value, double max, const char* name) {
  constexpr double min = 1e-9;
  if (value >= min && value <= max) return {};
  return refuse(ErrorCode::bad_input, "{}: a number above 0 up to {}, not {}", name, max, value);
}

}  // namespace

Result<double> a1_of(double percent, ReliabilityList list) {
  for (const ReliabilityFactor& factor : reliability_factors) {
    if (factor.percent == percent) return list == ReliabilityList::iso_281_2007 ? factor.a1_2007 : factor.a1_1990;
  }
  return refuse(ErrorCode::bad_input, "reliability: 90, 95, 96, 97, 98 or 99 percent, not {}", percent);
}

Result<RatingLife> rating_life(const BearingLoad& load) {
  HW_TRY(check_above_zero(load.C, 1e9, "C"));
  HW_TRY(check_above_zero(load.P, 1e9, "P"));
  HW_TRY(check_above_zero(load.n, 200'000, "n"));
  HW_TRY(check_above_zero(load.a1, 1, "a1"));
  const double exponent = load.type == BearingType::ball ? 3 : 10.0 / 3;
  RatingLife life{.L10_Mrev = std::pow(load.C / load.P, exponent)};
  life.L10h = life.L10_Mrev * 1e6 / (60 * load.n);
  life.L_na1_h = load.a1 * life.L10h;
  return life;
}

}  // namespace hw::condition
