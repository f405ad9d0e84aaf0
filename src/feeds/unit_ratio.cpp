#include "src/feeds/unit_ratio.h"

#include <array>
#include <cmath>

namespace hw::feeds {
namespace {

enum class Kind { length, time, angle, ratio, number };

struct Unit {
  std::string_view word;
  Kind kind;
  double size;  // in mm, s, degrees, percent
};

// The units of the standard that reach a counter, and those in which controls say them.
constexpr std::array<Unit, 17> known_units = {{{"MILLIMETER", Kind::length, 1},
                                               {"CENTIMETER", Kind::length, 10},
                                               {"DECIMETER", Kind::length, 100},
                                               {"METER", Kind::length, 1000},
                                               {"MICROMETER", Kind::length, 0.001},
                                               {"INCH", Kind::length, 25.4},
                                               {"FOOT", Kind::length, 304.8},
                                               {"MILLISECOND", Kind::time, 0.001},
                                               {"SECOND", Kind::time, 1},
                                               {"MINUTE", Kind::time, 60},
                                               {"HOUR", Kind::time, 3600},
                                               {"DAY", Kind::time, 86400},
                                               {"DEGREE", Kind::angle, 1},
                                               {"RADIAN", Kind::angle, 57.295779513082320877},
                                               {"REVOLUTION", Kind::angle, 360},
                                               {"PERCENT", Kind::ratio, 1},
                                               {"COUNT", Kind::number, 1}}};

const Unit* find_unit(std::string_view word) {
  constexpr std::string_view spatial = "_3D";
  if (word.size() > spatial.size() && word.substr(word.size() - spatial.size()) == spatial) {
    word.remove_suffix(spatial.size());
  }
  for (const Unit& unit : known_units) {
    if (unit.word == word) return &unit;
  }
  return nullptr;
}

// The ratio of two units of one kind.
std::optional<double> ratio(std::string_view from, std::string_view to) {
  if (from == to) return 1.0;
  const Unit* const a = find_unit(from);
  const Unit* const b = find_unit(to);
  if (a == nullptr || b == nullptr || a->kind != b->kind) return std::nullopt;
  return a->size / b->size;
}

std::optional<double> ratio_of_rates(std::string_view native_units, std::string_view units) {
  const std::size_t native_bar = native_units.find('/'), bar = units.find('/');
  if ((native_bar == std::string_view::npos) != (bar == std::string_view::npos)) return std::nullopt;
  const std::optional<double> above = ratio(native_units.substr(0, native_bar), units.substr(0, bar));
  if (!above || bar == std::string_view::npos) return above;
  const std::optional<double> below = ratio(native_units.substr(native_bar + 1), units.substr(bar + 1));
  if (!below) return std::nullopt;
  return *above / *below;
}

}  // namespace

std::optional<double> native_to_units(std::string_view native_units, std::string_view units, double native_scale) {
  const double scale = std::isfinite(native_scale) && native_scale != 0 ? native_scale : 1.0;
  if (native_units.empty() || units.empty() || native_units == units) return 1.0 / scale;
  const std::optional<double> factor = ratio_of_rates(native_units, units);
  if (!factor) return std::nullopt;
  return *factor / scale;
}

}  // namespace hw::feeds
