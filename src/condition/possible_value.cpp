#include "src/condition/possible_value.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <limits>

namespace hw::condition {
namespace {

using catalogue::TaskReading;

constexpr double value_max = 1e9;
constexpr double no_end = std::numeric_limits<double>::infinity();

// What a value in a unit can be at all. A pressure gauge may show a vacuum and a dial gauge go either way, so bar and
// mm are not here.
struct UnitRange {
  std::string_view unit;
  double min;
  double max;
};
constexpr std::array<UnitRange, 19> unit_ranges{{{"%", 0, 100},
                                                 {"pH", 0, 14},
                                                 {"°C", -273.15, no_end},
                                                 {"K", 0, no_end},
                                                 {"h", 0, no_end},
                                                 {"min", 0, no_end},
                                                 {"s", 0, no_end},
                                                 {"l", 0, no_end},
                                                 {"ml", 0, no_end},
                                                 {"kg", 0, no_end},
                                                 {"g", 0, no_end},
                                                 {"piece", 0, no_end},
                                                 {"pc", 0, no_end},
                                                 {"mm/s", 0, no_end},
                                                 {"l/min", 0, no_end},
                                                 {"l/h", 0, no_end},
                                                 {"1/min", 0, no_end},
                                                 {"°dH", 0, no_end},
                                                 {"µS/cm", 0, no_end}}};

bool is_same_unit(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](unsigned char one, unsigned char other) { return std::tolower(one) == std::tolower(other); });
}

struct ValueAndEnd {
  double value;
  double end;
};
Saying said(std::string code, const TaskReading& reading, ValueAndEnd beyond) {
  return {std::move(code),
          {{"what", reading.what}, {"unit", reading.unit}},
          {{"value", beyond.value}, {"end", beyond.end}}};
}

}  // namespace

Result<void> check_value(const TaskReading& reading, double value) {
  if (!(std::abs(value) <= value_max)) {
    return refuse(ErrorCode::bad_input, Saying{"value-beyond", {{"what", reading.what}}},
                  "{}: {} is more than any gauge shows; look again", reading.what, value);
  }
  const auto range = std::find_if(unit_ranges.begin(), unit_ranges.end(),
                                  [&](const UnitRange& one) { return is_same_unit(one.unit, reading.unit); });
  if (range == unit_ranges.end()) return {};
  if (value < range->min) {
    return refuse(ErrorCode::bad_input, said("value-too-low", reading, {value, range->min}),
                  "{}: {} {} cannot be; it is {} or more", reading.what, value, reading.unit, range->min);
  }
  if (value > range->max) {
    return refuse(ErrorCode::bad_input, said("value-too-high", reading, {value, range->max}),
                  "{}: {} {} cannot be; it is {} or less", reading.what, value, reading.unit, range->max);
  }
  return {};
}

Result<void> check_unit(const TaskReading& reading, std::string_view unit) {
  if (is_same_unit(unit, reading.unit)) return {};
  return refuse(ErrorCode::bad_input, Saying{"reading-unit", {{"what", reading.what}, {"unit", reading.unit}}},
                "{}: \"{}\" is not its unit; read it in {}", reading.what, unit, reading.unit);
}

}  // namespace hw::condition
