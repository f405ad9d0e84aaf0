#pragma once
// Several hypotheses about how the level of use wanders, each weighted by how well it foretold the history
// (Bayesian model averaging: weight proportional to prior times evidence).

#include <vector>

#include "src/due/rate_quantiles.h"
#include "src/due/use_level.h"

namespace hw::due {

struct WeightedBelief {
  double weight = 0;  // all sum to 1
  LevelBelief belief;
};

// The heaviest hypotheses first; those that together weigh below 2 % are left out.
std::vector<WeightedBelief> weigh_levels(const BlockRun& run, const MeanPrior& prior);

// The mixture of the mean rates over the days ahead, for rates_exceeded.
std::vector<WeightedRate> rates_ahead(const std::vector<WeightedBelief>& levels, const BlockRun& run,
                                      const Ahead& ahead);

// Blocks of 1, 3 or 7 days back from the end of the history, longer ones for longer histories; those without a share
// worth speaking of are left out. `unit` is the mean use of one share, above 0.
BlockRun blocks_of(const PastUse& past, const WeekdayShares& shares, double unit);

}  // namespace hw::due
