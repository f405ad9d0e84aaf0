#pragma once
// The highest point of a log-likelihood of line.h, by Newton's method with shortened steps.
//
// `terms` is asked as terms(Line) -> Terms; where the likelihood is 0 its value is minus infinity or no number.

#include <algorithm>
#include <cmath>

#include "src/life/line.h"

namespace hw::life {

enum class Ending {
  found,
  slope_vanishes,  // the likelihood goes on rising while the slope falls to 0
  slope_endless,   // ... while the slope grows without end
  undetermined,    // it is flat: the lives do not say
};

struct Highest {
  Ending ending = Ending::undetermined;
  Line line;
  Terms terms;  // at the line
};

inline constexpr double slope_min = 1e-4;
inline constexpr double slope_max = 1e6;
inline constexpr double decrement_near = 1e-6;  // from here whole steps converge; the value's rounding hides their gain
inline constexpr double decrement_last = 1e-14;  // from here one more full step is exact to rounding
inline constexpr double information_min = 1e-6;  // about log slope; a single exact failure brings about 1

// What a step is worth: the gain in log-likelihood that Newton's quadratic promises, twice.
struct NewtonStep {
  Line change;
  double decrement = 0;
};

// The level's own curvature is negative for every life; what the slope adds (the Schur complement) may not be, with
// entries, far from the maximum: then its size counts, and the step still leads up.
inline NewtonStep newton_step(const Terms& at) {
  const double bend = at.by_slope2 - at.by_slope_level * at.by_slope_level / at.by_level2;
  const double pull = at.by_slope - at.by_slope_level * at.by_level / at.by_level2;
  const double slope = pull / std::abs(bend);
  const double level = -(at.by_level + at.by_slope_level * slope) / at.by_level2;
  return {{slope, level}, pull * pull / std::abs(bend) - at.by_level * at.by_level / at.by_level2};
}

// About the logarithm of the slope, whatever the level is.
inline double slope_information(const Highest& highest) {
  const Terms& at = highest.terms;
  return -(at.by_slope2 - at.by_slope_level * at.by_slope_level / at.by_level2) * highest.line.slope *
         highest.line.slope;
}

template <class TermsOf>
Highest maximise(const TermsOf& terms, Line start) {
  Highest now{Ending::undetermined, start, terms(start)};
  for (int round = 0; round < 200; ++round) {
    if (now.line.slope < slope_min) return {Ending::slope_vanishes, now.line, now.terms};
    if (now.line.slope > slope_max) return {Ending::slope_endless, now.line, now.terms};
    const NewtonStep step = newton_step(now.terms);
    if (!(step.decrement < 1e300)) return now;
    const double fallen = -0.9 * now.line.slope;  // the slope stays above 0
    double share = step.change.slope < fallen ? fallen / step.change.slope : 1;
    const bool is_near = step.decrement < decrement_near;
    const bool is_last = step.decrement < decrement_last;
    for (int halving = 0;; ++halving) {
      const Line line{now.line.slope + share * step.change.slope, now.line.level + share * step.change.level};
      const Terms there = terms(line);
      const double slack = 1e-13 * std::abs(now.terms.value);  // of rounding
      if (is_near || there.value >= now.terms.value + 1e-4 * share * step.decrement - slack) {
        now.line = line;
        now.terms = there;
        break;
      }
      if (halving == 60) return now;
      share *= 0.5;
    }
    if (is_last) {
      now.ending = slope_information(now) > information_min ? Ending::found : Ending::undetermined;
      return now;
    }
  }
  return now;
}

}  // namespace hw::life
