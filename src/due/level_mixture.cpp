#include "src/due/level_mixture.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace hw::due {
namespace {

constexpr std::array<double, 6> memories_days = {5, 15, 45, 130, 400, 1500};
constexpr std::array<double, 5> unrests = {0.02, 0.08, 0.3, 1.2, 5};
constexpr double calm_odds = 3;  // a level that does not wander, beside each that does
// The long mean may drift: by 0.23 of itself in a year (variance 1.5e-4 a day), less where the days scatter little.
constexpr double drift_per_day = 1.5e-4;
constexpr double drift_per_noise_max = 6e-4;
constexpr double drift_prior = 0.4;
constexpr double season_prior = 0.15;
constexpr double weight_kept = 0.98;
constexpr std::size_t hypotheses_kept_max = 14;
constexpr double change_shape = 1.5, change_days = 700;
constexpr double change_variance = 0.06, change_variance_lumpy = 0.8;  // relative to the level's square
constexpr double change_degrees = 30;
constexpr double rate_min = 0.03;  // of the history's mean: no level is taken to be lower over long

struct Candidate {
  Hypothesis hypothesis;
  double log_prior = 0;
};

std::vector<Candidate> make_candidates() {
  std::vector<Candidate> candidates;
  for (const bool has_season : {false, true}) {
    for (const double drift : {0.0, drift_per_day}) {
      const double prior =
          std::log(has_season ? season_prior : 1 - season_prior) + std::log(drift > 0 ? drift_prior : 1 - drift_prior);
      candidates.push_back({{100, 0, has_season, drift}, prior + std::log(calm_odds)});
      for (const double memory : memories_days) {
        for (const double unrest : unrests) candidates.push_back({{memory, unrest, has_season, drift}, prior});
      }
    }
  }
  return candidates;
}

void keep_heaviest(std::vector<WeightedBelief>& levels) {
  std::sort(levels.begin(), levels.end(), [](const auto& a, const auto& b) { return a.weight > b.weight; });
  double kept = 0;
  std::size_t count = 0;
  while (count < levels.size() && count < hypotheses_kept_max && kept <= weight_kept) kept += levels[count++].weight;
  levels.resize(count);
  for (WeightedBelief& level : levels) level.weight /= kept;
}

// Everything from `begin` on as one.
void merge_behind(std::vector<WeightedAhead>& rates, std::size_t begin) {
  WeightedAhead rest{0, {}, rates[begin].degrees};
  double squares = 0;
  for (std::size_t n = begin; n < rates.size(); ++n) {
    const auto& [weight, rate, degrees] = rates[n];
    rest.weight += weight;
    rest.rate.mean += weight * rate.mean;
    rest.rate.noise += weight * rate.noise;
    squares += weight * (rate.level_variance + rate.mean * rate.mean);
  }
  rest.rate.mean /= rest.weight;
  rest.rate.noise /= rest.weight;
  rest.rate.level_variance = std::max(0.0, squares / rest.weight - rest.rate.mean * rest.rate.mean);
  rates.resize(begin);
  rates.push_back(rest);
}

// The level may change as nothing in the history foretells: work is lost, a second shift begins. How often that happens
// has a gamma belief of `change_shape` changes in `change_days`, none seen in the h days from the first block to the
// last:
//   P(a change since) = 1 - ((change_days + h) / (change_days + h + t))^change_shape,   t days from the last block on.
// The new level's relative variance is change_variance, and change_variance_lumpy more where a day's use scatters as
// much as it is large: who works by the job changes by the job. It holds for a part of the t days, evenly spread from
// none to all: the mean of its square is a third.
void add_changed(std::vector<WeightedAhead>& rates, const BlockRun& run, double days) {
  std::vector<WeightedAhead> all = rates;
  merge_behind(all, 0);
  WeightedAhead& changed = all.front();
  const double square = changed.rate.mean * changed.rate.mean;
  const double lumpy = std::min(1.0, changed.rate.noise / square);
  const double seen = run.blocks.empty() ? 0 : run.blocks.back().middle - run.blocks.front().middle;
  const double unseen = run.blocks.empty() ? 0 : run.days - run.blocks.back().middle;
  const double past = change_days + seen;
  changed.weight = 1 - std::pow(past / (past + unseen + days), change_shape);
  changed.degrees = change_degrees;
  changed.rate.level_variance += (change_variance + change_variance_lumpy * lumpy) / 3 * square;
  for (WeightedAhead& one : rates) one.weight *= 1 - changed.weight;
  rates.push_back(changed);
}

int block_days(std::size_t history_days) {
  if (history_days < 21) return 1;
  return history_days < 70 ? 3 : 7;
}

// Days that are known together are never cut: the block ends before them, or holds all of them.
std::size_t begin_of_block(const PastUse& past, std::size_t end, std::size_t length) {
  std::size_t begin = end > length ? end - length : 0;
  std::size_t behind = begin;
  while (behind < end && past.days[behind].is_continued) ++behind;
  if (behind < end) return behind;
  while (begin > 0 && past.days[begin].is_continued) --begin;
  return begin;
}

}  // namespace

std::vector<WeightedBelief> weigh_levels(const BlockRun& run, const MeanPrior& prior) {
  static const std::vector<Candidate> candidates = make_candidates();
  std::vector<WeightedBelief> levels;
  levels.reserve(candidates.size());
  double best = -1e300;
  const double noise = learn_level(candidates.front().hypothesis, run, prior).noise;  // of a calm level
  const double drift = std::min(drift_per_noise_max, drift_per_day / noise);
  for (const Candidate& candidate : candidates) {
    Hypothesis hypothesis = candidate.hypothesis;
    if (hypothesis.drift > 0) hypothesis.drift = drift;
    levels.push_back({0, learn_level(hypothesis, run, prior)});
    levels.back().weight = candidate.log_prior + levels.back().belief.log_evidence;
    best = std::max(best, levels.back().weight);
  }
  double sum = 0;
  for (WeightedBelief& level : levels) sum += level.weight = std::exp(level.weight - best);
  for (WeightedBelief& level : levels) level.weight /= sum;
  keep_heaviest(levels);
  return levels;
}

std::vector<WeightedAhead> rates_ahead(const std::vector<WeightedBelief>& levels, const BlockRun& run, double days,
                                       std::size_t count_max) {
  std::vector<WeightedAhead> rates;
  rates.reserve(levels.size());
  for (const WeightedBelief& level : levels) {
    RateAhead rate = rate_ahead(level.belief, run, days);
    rate.mean = std::max(rate.mean, rate_min);
    rates.push_back({level.weight, rate, level.belief.degrees});
  }
  if (rates.size() > count_max) merge_behind(rates, count_max - 1);
  add_changed(rates, run, days);
  return rates;
}

BlockRun blocks_of(const PastUse& past, const WeekdayShares& shares, double unit) {
  BlockRun run{{}, static_cast<double>(past.days.size()), radians_per_day * past.first_on.days};
  const auto length = static_cast<std::size_t>(block_days(past.days.size()));
  const auto first_weekday = static_cast<std::size_t>(iso_weekday(past.first_on) - 1);
  for (std::size_t end = past.days.size(); end > 0;) {
    const std::size_t begin = begin_of_block(past, end, length);
    UseBlock block{static_cast<double>(begin + end) / 2, 0, 0, 0, 0};
    block.year_cos = std::cos(run.year_phase + radians_per_day * block.middle);
    block.year_sin = std::sin(run.year_phase + radians_per_day * block.middle);
    for (std::size_t n = begin; n < end; ++n) {
      if (!past.days[n].is_counted) continue;
      block.used += past.days[n].used / unit;
      block.shares += shares[(first_weekday + n) % 7];
    }
    const double shares_min = 0.15 * static_cast<double>(end - begin);
    if (block.shares > shares_min || (block.used > 0 && block.shares > 0)) run.blocks.push_back(block);
    end = begin;
  }
  std::reverse(run.blocks.begin(), run.blocks.end());
  return run;
}

}  // namespace hw::due
