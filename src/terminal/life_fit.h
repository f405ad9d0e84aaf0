#pragma once
// hourwright life fit: which Weibull distribution the lives of a table have, and how well that is known.

#include <optional>

#include "src/terminal/life_answer.h"

namespace hw::terminal {

struct LifeFitCall : LifeOptions {
  double share_percent = 10;    // of the B life beside B10
  std::optional<double> age;    // whose reliability is asked for
  std::optional<double> shape;  // assumed, not estimated
};
Answer fit_life(const LifeFitCall& call);

}  // namespace hw::terminal
