#include "src/condition/viscosity_at.h"

#include <cmath>

namespace hw::condition {
namespace {

constexpr double kelvin_at_zero_celsius = 273.15;
constexpr double walther_addend = 0.7;

double log_kelvin(double celsius) { return std::log10(celsius + kelvin_at_zero_celsius); }

Result<void> check_temperature(double celsius) {
  if (celsius >= -50 && celsius <= 200) return {};
  return refuse(ErrorCode::bad_input, "t: a temperature from -50 to 200 C, not {}", celsius);
}

Result<void> check_known(const KnownViscosity& known) {
  HW_TRY(check_temperature(known.celsius));
  if (known.mm2_s >= walther_viscosity_min && known.mm2_s <= 1e6) return {};
  return refuse(ErrorCode::bad_input, "v: a viscosity from 2 to 1000000 mm2/s, not {}", known.mm2_s);
}

double walther(double mm2_s) { return std::log10(std::log10(mm2_s + walther_addend)); }

}  // namespace

Result<ViscosityLine> ViscosityLine::through(const KnownViscosity& one, const KnownViscosity& other) {
  HW_TRY(check_known(one));
  HW_TRY(check_known(other));
  if (one.celsius == other.celsius)
    return refuse(ErrorCode::bad_input, "t1, t2: two temperatures that differ are needed");
  const double slope =
      (walther(one.mm2_s) - walther(other.mm2_s)) / (log_kelvin(other.celsius) - log_kelvin(one.celsius));
  if (!(slope > 0)) return refuse(ErrorCode::bad_input, "v1, v2: an oil is thinner where it is warmer");
  return ViscosityLine(walther(one.mm2_s) + slope * log_kelvin(one.celsius), slope);
}

Result<double> ViscosityLine::at(double celsius) const {
  HW_TRY(check_temperature(celsius));
  const double viscosity = std::pow(10, std::pow(10, a_ - b_ * log_kelvin(celsius))) - walther_addend;
  if (viscosity >= walther_viscosity_min && std::isfinite(viscosity)) return viscosity;
  return refuse(ErrorCode::unsupported,
                "t: at {} C the viscosity comes out as {:.3g} mm2/s; the equation holds from 2 on", celsius, viscosity);
}

}  // namespace hw::condition
