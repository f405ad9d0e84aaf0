#include "src/condition/cleanliness_code.h"

#include <algorithm>
#include <cmath>

namespace hw::condition {
namespace {

constexpr double counted_particles_min = 20;
constexpr std::array<const char*, 3> channels = {"4 um(c)", "6 um(c)", "14 um(c)"};

Result<void> check_channels(const ParticleCounts& counts) {
  for (std::size_t n = 0; n < channels.size(); ++n) {
    if (n > 0 && !counts.per_ml[n]) {
      return refuse(ErrorCode::bad_input, "counts[{}]: the count at {} is missing; only the first may be", n,
                    channels[n]);
    }
    if (n > 0 && counts.per_ml[n - 1] && *counts.per_ml[n] > *counts.per_ml[n - 1]) {
      return refuse(ErrorCode::bad_input, "counts[{}]: {} particles at {} are more than {} of the size below it", n,
                    *counts.per_ml[n], channels[n], *counts.per_ml[n - 1]);
    }
    if (!counts.counted_particles) continue;
    if (!((*counts.counted_particles)[n] >= 0)) {
      return refuse(ErrorCode::bad_input, "counted[{}]: a count is not negative", n);
    }
  }
  return {};
}

}  // namespace

std::string CleanlinessNumber::text() const { return is_beyond() ? ">28" : std::to_string(code); }

Result<CleanlinessNumber> cleanliness_number(double per_ml) {
  if (!(per_ml >= 0 && std::isfinite(per_ml))) {
    return refuse(ErrorCode::bad_input, "{} is no count of particles per millilitre: a number from 0 on", per_ml);
  }
  const auto number = std::lower_bound(particles_per_ml_max.begin(), particles_per_ml_max.end(), per_ml);
  return CleanlinessNumber{static_cast<int>(number - particles_per_ml_max.begin())};
}

Result<CleanlinessCode> cleanliness_code(const ParticleCounts& counts) {
  HW_TRY(check_channels(counts));
  CleanlinessCode result;
  for (std::size_t n = 0; n < channels.size(); ++n) {
    if (n > 0) result.code += "/";
    if (!counts.per_ml[n]) {
      result.code += "-";
      continue;
    }
    HW_TAKE(number, cleanliness_number(*counts.per_ml[n]));
    result.numbers[n] = number;
    const bool is_few = counts.counted_particles && (*counts.counted_particles)[n] < counted_particles_min;
    result.code += (is_few ? ">=" : "") + number.text();
  }
  return result;
}

}  // namespace hw::condition
