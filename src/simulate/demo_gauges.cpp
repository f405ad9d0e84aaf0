#include "src/simulate/demo_gauges.h"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace hw::simulate {
namespace {

// A value in the middle of what is as it should be; without limits one that such a gauge may show (invented).
double usual_value(const catalogue::TaskReading& reading) {
  const auto& [min, max] = reading.warning;
  if (min && max) return (*min + *max) / 2;
  if (min) return 1.1 * *min;
  if (max) return 0.85 * *max;
  const auto shows = [&](std::string_view word) { return reading.what.find(word) != std::string::npos; };
  if (reading.unit == "°C") return 31;
  if (reading.unit != "bar") return 7.2;
  if (shows("air")) return 1.2;
  return shows("flood") ? 4.5 : 38;
}

constexpr double fallen_by_the_end = 0.55;  // of the way to the limit

// As finely as people read it off: tenths, halves from ten on.
double as_read(double value) { return value < 10 ? std::round(value * 10) / 10 : std::round(value * 2) / 2; }

}  // namespace

double DemoGauges::next(const std::string& check, const catalogue::TaskReading& reading, double share) {
  const double usual = usual_value(reading);
  double& wandered = wandered_[check];
  wandered = 0.3 * wandered + static_cast<double>(dice_.between(-15, 15)) / 1000;
  const bool falls = does_fall_ && reading.warning.min && reading.unit == "bar";
  const double fallen = falls ? (usual - *reading.warning.min) * fallen_by_the_end * share : 0;
  const double value = as_read((usual - fallen) * (1 + (falls ? wandered / 4 : wandered)));
  return falls ? std::max(value, *reading.warning.min) : value;
}

}  // namespace hw::simulate
