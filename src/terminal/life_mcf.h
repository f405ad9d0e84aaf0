#pragma once
// hourwright life mcf: how many failures machines that are repaired have had on average by each age.

#include "src/terminal/life_answer.h"

namespace hw::terminal {

Answer count_life(const LifeOptions& call);

}  // namespace hw::terminal
