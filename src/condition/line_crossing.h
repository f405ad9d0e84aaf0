#pragma once
// Where a line through readings meets a limit, and how sure that is. A rising line meets it from below, a falling one
// from above.
//
//   line_crossing    (limit - b0) / b1
//   pi_crossing      where the one-sided prediction bound of a new reading, on the side of the limit, meets it: the
//   first
//                    reading beyond is to be reckoned with from here on
//   fieller          the x for which the limit lies within the two-sided confidence interval of the line (Fieller
//   1954): no
//                    interval where the slope cannot be told from none at that confidence
//
// All in the unit of x; a crossing may lie before the last reading.

#include <array>
#include <optional>

#include "src/condition/line_fit.h"

namespace hw::condition {

struct LineCrossing {
  std::optional<double> line_crossing = {};           // nothing where the slope is 0
  std::optional<double> pi_crossing = {};             // nothing where the bound never meets the limit
  std::optional<std::array<double, 2>> fieller = {};  // nothing where the set is no interval
};

// `conf` lies in (0, 1), `limit` is finite in the unit of y.
LineCrossing cross_limit(const LineFit& fit, double limit, double conf);

}  // namespace hw::condition
