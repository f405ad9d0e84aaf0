#pragma once
// hourwright life survival: the share still good at each age, without a distribution.

#include "src/terminal/life_answer.h"

namespace hw::terminal {

struct LifeSurvivalCall : LifeOptions {
  std::string scale = "log-log";  // or log, plain
};
Answer survive_life(const LifeSurvivalCall& call);

}  // namespace hw::terminal
