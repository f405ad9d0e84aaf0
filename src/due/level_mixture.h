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

// The mean rates over the days ahead by one belief, or by several that were made into one.
struct WeightedAhead {
  double weight = 0;  // all sum to 1
  RateAhead rate;     // its mean at least 3 % of the history's
  double degrees = 0;
};

// At most `count_max` (at least 1), the heaviest by themselves and the others as one of the same mean and variance; and
// one more for a level that changes in those days as the history does not foretell.
std::vector<WeightedAhead> rates_ahead(const std::vector<WeightedBelief>& levels, const BlockRun& run, double days,
                                       std::size_t count_max);

// Blocks of 1, 3 or 7 days back from the end of the history, longer ones for longer histories; those without a share
// worth speaking of are left out. `unit` is the mean use of one share, above 0.
BlockRun blocks_of(const PastUse& past, const WeekdayShares& shares, double unit);

}  // namespace hw::due
