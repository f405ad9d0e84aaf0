#include "libs/formats/json.h"
#include "src/condition/air_class.h"
#include "src/terminal/evaluate_cases.h"

namespace hw::terminal {
namespace {

struct AirCase {
  std::optional<std::array<double, 3>> particles;  // per m3 of 0.1-0.5, 0.5-1, 1-5 um
  std::optional<double> mass;                      // mg/m3 of particles
  std::optional<double> dew;                       // pressure dew point, C
  std::optional<double> liquid;                    // g/m3 of liquid water
  std::optional<double> oil;                       // mg/m3 in all forms
};
BOOST_DESCRIBE_STRUCT(AirCase, (), (particles, mass, dew, liquid, oil))

struct AirView {
  formats::OrNull<boost::json::value> particles, dew, liquid, oil;
  std::string written;  // particles.water.oil, "-" for what was not measured
  StandardView standard;
};
BOOST_DESCRIBE_STRUCT(AirView, (), (particles, dew, liquid, oil, written, standard))

// Classes are numbers where they are digits, as in the published cases.
void set_class(formats::OrNull<boost::json::value>& into, const std::string& word) {
  const bool is_digit = word.size() == 1 && word[0] != 'X';
  into.emplace(is_digit ? boost::json::value(word[0] - '0') : boost::json::value(word));
}

std::string class_text(const formats::OrNull<boost::json::value>& one) {
  if (!one) return "-";
  return one->is_string() ? std::string(one->as_string()) : std::to_string(one->as_int64());
}

}  // namespace

Result<CaseAnswer> air_case(const boost::json::value& tree, const formats::JsonPlace& place) {
  HW_TAKE(air, read_case<AirCase>(tree, place));
  if (!air.particles && !air.dew && !air.liquid && !air.oil) {
    return refuse(place.error("at least one of particles, dew, liquid and oil is needed"));
  }
  AirView view{{}, {}, {}, {}, "", view_of(condition::air_standard)};
  if (air.particles) {
    HW_TAKE(particles, condition::particle_class({*air.particles, air.mass}));
    set_class(view.particles, particles);
  }
  if (air.dew) {
    HW_TAKE(dew, condition::dew_point_class(*air.dew));
    set_class(view.dew, dew);
  }
  if (air.liquid) {
    HW_TAKE(liquid, condition::liquid_class(*air.liquid));
    set_class(view.liquid, liquid);
  }
  if (air.oil) {
    HW_TAKE(oil, condition::oil_class(*air.oil));
    set_class(view.oil, oil);
  }
  const bool is_wet = view.liquid && (!view.dew || view.dew->is_string());
  view.written = fmt::format("{}.{}.{}", class_text(view.particles), class_text(is_wet ? view.liquid : view.dew),
                             class_text(view.oil));
  return CaseAnswer{formats::print_json(view),
                    "compressed air " + view.written + "\n" + print_note(condition::air_standard)};
}

}  // namespace hw::terminal
