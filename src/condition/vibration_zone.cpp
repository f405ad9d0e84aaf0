#include "src/condition/vibration_zone.h"

namespace hw::condition {
namespace {

std::array<double, 3> limits_of(VibrationCase which) {
  switch (which) {
    case VibrationCase::group1_rigid:
      return {2.3, 4.5, 7.1};
    case VibrationCase::group1_flexible:
      return {3.5, 7.1, 11.0};
    case VibrationCase::group2_rigid:
      return {1.4, 2.8, 4.5};
    case VibrationCase::group2_flexible:
      return {2.3, 4.5, 7.1};
    case VibrationCase::class_I:
      return {0.71, 1.8, 4.5};
    case VibrationCase::class_II:
      return {1.12, 2.8, 7.1};
    case VibrationCase::class_III:
      return {1.8, 4.5, 11.2};
    case VibrationCase::class_IV:
      return {2.8, 7.1, 18.0};
  }
  return {};
}

}  // namespace

Result<VibrationZone> vibration_zone(double velocity, VibrationCase which) {
  if (!(velocity >= 0 && velocity <= 1000)) {
    return refuse(ErrorCode::bad_input, "v: an r.m.s. velocity from 0 to 1000 mm/s, not {}", velocity);
  }
  VibrationZone result{.zone = "A", .limits = limits_of(which)};
  const std::array<const char*, 3> beyond = {"B", "C", "D"};
  for (std::size_t n = 0; n < result.limits.size(); ++n) {
    if (velocity > result.limits[n]) result.zone = beyond[n];
    if (velocity == result.limits[n]) {
      result.zone += std::string("/") + beyond[n];
      result.is_on_a_limit = true;
    }
  }
  return result;
}

}  // namespace hw::condition
