#include "src/condition/air_class.h"

#include <cmath>
#include <span>

namespace hw::condition {
namespace {

Result<void> check_amount(double value, const char* name) {
  if (value >= 0 && value <= 1e15) return {};
  return refuse(ErrorCode::bad_input, "{}: a number from 0 on, not {}", name, value);
}

// The first class whose limit is not exceeded.
std::string class_within(std::span<const double> limits, double value, int first_class, std::string beyond) {
  for (std::size_t n = 0; n < limits.size(); ++n) {
    if (value <= limits[n]) return std::to_string(first_class + static_cast<int>(n));
  }
  return beyond;
}

constexpr double not_limited = INFINITY;  // the class does not limit particles of that size
constexpr std::array<std::array<double, 3>, 5> particle_limits = {{{20'000, 400, 10},
                                                                   {400'000, 6'000, 100},
                                                                   {not_limited, 90'000, 1'000},
                                                                   {not_limited, not_limited, 10'000},
                                                                   {not_limited, not_limited, 100'000}}};

}  // namespace

Result<std::string> particle_class(const ParticleAir& air) {
  for (const double count : air.per_m3) HW_TRY(check_amount(count, "particles"));
  for (std::size_t n = 0; n < particle_limits.size(); ++n) {
    const auto& limits = particle_limits[n];
    if (air.per_m3[0] <= limits[0] && air.per_m3[1] <= limits[1] && air.per_m3[2] <= limits[2]) {
      return std::to_string(n + 1);
    }
  }
  if (!air.mg_per_m3) return "beyond 5";
  HW_TRY(check_amount(*air.mg_per_m3, "mass"));
  return class_within(std::array{5.0, 10.0}, *air.mg_per_m3, 6, "X");
}

Result<std::string> dew_point_class(double celsius) {
  if (!(celsius >= -150 && celsius <= 100)) {
    return refuse(ErrorCode::bad_input, "dew: a pressure dew point from -150 to 100 C, not {}", celsius);
  }
  return class_within(std::array{-70.0, -40.0, -20.0, 3.0, 7.0, 10.0}, celsius, 1, "liquid or beyond 6");
}

Result<std::string> liquid_class(double g_per_m3) {
  HW_TRY(check_amount(g_per_m3, "liquid"));
  return class_within(std::array{0.5, 5.0, 10.0}, g_per_m3, 7, "X");
}

Result<std::string> oil_class(double mg_per_m3) {
  HW_TRY(check_amount(mg_per_m3, "oil"));
  return class_within(std::array{0.01, 0.1, 1.0, 5.0}, mg_per_m3, 1, "X");
}

}  // namespace hw::condition
