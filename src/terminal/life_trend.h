#pragma once
// hourwright life trend: whether a repaired machine fails ever more often, and its mean time between failures.

#include <optional>

#include "src/terminal/life_answer.h"

namespace hw::terminal {

struct LifeTrendCall : LifeOptions {
  std::optional<double> until;  // watched up to then, where the table names no end
};
Answer judge_trend(const LifeTrendCall& call);

}  // namespace hw::terminal
