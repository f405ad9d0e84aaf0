#pragma once
// The viscosity of an oil at other temperatures, from two that are known: Walther's equation as ASTM D341 uses it.
//
//   log10 log10(v + 0.7) = A - B log10 T      T in kelvin = t + 273.15, v in mm2/s
//
// It holds from 2 mm2/s on; below, D341 adds exponential terms that are not in the program.

#include "libs/values/result.h"
#include "src/condition/standard_note.h"

namespace hw::condition {

inline constexpr StandardNote viscosity_at_standard{
    "ASTM D341 (Walther's equation)", "public programs name the equation so", "the equation and its range",
    "the terms below 2 mm2/s and the temperature range of the chart"};

inline constexpr double walther_viscosity_min = 2;  // mm2/s

struct KnownViscosity {
  double celsius = 0;
  double mm2_s = 0;
};

class ViscosityLine {
 public:
  // Refuses temperatures outside -50 to 200 C or alike, viscosities below 2 or above 1e6 mm2/s, and an oil that becomes
  // thicker as it warms.
  static Result<ViscosityLine> through(const KnownViscosity& one, const KnownViscosity& other);

  double A() const { return a_; }
  double B() const { return b_; }
  // In mm2/s. Refuses temperatures outside -50 to 200 C and a viscosity that comes out below 2 mm2/s.
  Result<double> at(double celsius) const;

 private:
  ViscosityLine(double a, double b) : a_(a), b_(b) {}
  double a_;
  double b_;
};

}  // namespace hw::condition
