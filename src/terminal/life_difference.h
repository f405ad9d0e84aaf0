#pragma once
// hourwright life difference: whether groups of parts last equally long.

#include "src/terminal/life_answer.h"

namespace hw::terminal {

struct LifeDifferenceCall : LifeOptions {};
Answer tell_difference(const LifeDifferenceCall& call);

}  // namespace hw::terminal
