#pragma once
// What the lives seen allow: Weibull distributions on a grid, each with the share of belief that the likelihood gives
// it (normalised, prior flat in log shape and log scale), so that an interval can be judged over all of them instead of
// over the likeliest alone.

#include <optional>
#include <span>
#include <vector>

#include "src/life/age_replacement.h"
#include "src/life/weibull_fit.h"

namespace hw::life {

struct Believed {
  Weibull life;
  double share = 0;  // they sum up to 1
};

// Shapes from 0.1 to 30 are weighed; beyond them no shape of a machine part lies. 41 shapes times 25 scales.
// Errors: bad_input with fewer than two failures: then the flat prior leaves the scale without an upper end.
Result<std::vector<Believed>> believed_lives(const WeibullLikelihood& likelihood, const WeibullFit& fit);

// The mean of age_cost_rate over them; the age above 0, may be infinite.
double expected_cost_rate(std::span<const Believed> believed, const ReplacementCosts& costs, double age);

// The same with its spread: with a chance of 5 % it is less than the lower bound, and with 5 % more than the upper one.
struct CostRate {
  double expected = 0;
  Bounds range;
};
CostRate believed_cost_rate(std::span<const Believed> believed, const ReplacementCosts& costs, double age);

struct CheapestInterval {
  std::optional<double> interval;  // of the least expected cost rate; nothing: run to failure
  double cost_rate = 0;            // expected, of that
  double run_to_failure = 0;       // expected
};
CheapestInterval cheapest_interval(std::span<const Believed> believed, const ReplacementCosts& costs);

struct BelievedAdvice {
  std::optional<double> interval;  // of the least expected cost rate; nothing: run to failure
  double cost_rate = 0;            // expected, of what is advised
  double run_to_failure = 0;       // expected
  double saving = 0;               // share of run_to_failure
  // If the true distribution were known: the best interval with that chance at most (infinite: run to failure).
  double best_5 = 0, best_50 = 0, best_95 = 0;
};
BelievedAdvice advise_age(std::span<const Believed> believed, const ReplacementCosts& costs);

struct Move {
  double saving = 0;    // expected cost rate now less that after; below 0: the move costs
  double saving_5 = 0;  // with a chance of 5 % it is less than this, and with 5 % more than saving_95
  double saving_95 = 0;
  double chance = 0;  // that the move saves anything
};
// Moving the interval from one age to another, either may be infinite.
Move judge_move(std::span<const Believed> believed, const ReplacementCosts& costs, double from, double to);

}  // namespace hw::life
