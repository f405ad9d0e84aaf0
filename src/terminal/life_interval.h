#pragma once
// hourwright life interval: how often work on a part costs least, from a known life or from lives seen.

#include <optional>

#include "src/terminal/life_answer.h"

namespace hw::terminal {

struct LifeIntervalCall : LifeOptions {
  std::optional<double> shape, scale;  // instead of a file
  double planned = 0, failed = 0;
  std::string policy = "age";  // or block, overhaul
  std::optional<double> now;   // the interval so far
};
Answer advise_life(const LifeIntervalCall& call);

}  // namespace hw::terminal
