#include "src/life/other_fits.h"

#include <cmath>
#include <numbers>

#include "libs/numerics/normal_tail.h"

namespace hw::life {
namespace {

constexpr double log_root_two_pi = 0.91893853320467274178;

double density(double z) { return std::exp(-0.5 * z * z - log_root_two_pi); }

// Adds what a function of z = slope y + level brings, from its value and derivatives by z.
void add_by_z(Terms& terms, double value, double first, double second, double y) {
  terms.value += value;
  terms.by_slope += first * y;
  terms.by_level += first;
  terms.by_slope2 += second * y * y;
  terms.by_slope_level += second * y;
  terms.by_level2 += second;
}

void add_survived(Terms& terms, const LogAge& age, const Line& line) {
  const double z = line.slope * age.y + line.level;
  const double hazard = numerics::normal_hazard(z);
  add_by_z(terms, age.weight * numerics::log_normal_above(z), -age.weight * hazard, -age.weight * hazard * (hazard - z),
           age.y);
}

// log(Phi(z2) - Phi(z1)), from whichever tail keeps its digits.
void add_between(Terms& terms, const LogGap& gap, const Line& line) {
  const double upper = line.slope * gap.y_upper + line.level;
  const double lower = std::isinf(gap.y_lower) ? -never : line.slope * gap.y_lower + line.level;
  const double share = lower > 0 ? numerics::normal_below(-lower) - numerics::normal_below(-upper)
                                 : numerics::normal_below(upper) - numerics::normal_below(lower);
  const double p2 = density(upper) / share;
  const double p1 = std::isinf(lower) ? 0 : density(lower) / share;
  const double y1 = std::isinf(lower) ? 0 : gap.y_lower;
  const double z1 = std::isinf(lower) ? 0 : lower;
  add_by_z(terms, gap.weight * std::log(share), gap.weight * p2, gap.weight * (-upper * p2 - p2 * p2), gap.y_upper);
  add_by_z(terms, 0, -gap.weight * p1, gap.weight * (z1 * p1 - p1 * p1), y1);
  const double cross = gap.weight * p1 * p2;
  terms.by_slope2 += 2 * cross * y1 * gap.y_upper;
  terms.by_slope_level += cross * (y1 + gap.y_upper);
  terms.by_level2 += 2 * cross;
}

Terms lognormal_terms(const LogLives& lives, const Line& line) {
  Terms terms;
  terms.value = lives.counts.exact * (std::log(line.slope) - log_root_two_pi - lives.origin) - lives.exact_y_sum;
  terms.by_slope = lives.counts.exact / line.slope;
  terms.by_slope2 = -lives.counts.exact / (line.slope * line.slope);
  for (const LogAge& age : lives.exact) {
    const double z = line.slope * age.y + line.level;
    add_by_z(terms, -0.5 * age.weight * z * z, -age.weight * z, -age.weight, age.y);
  }
  for (const LogAge& age : lives.survived) add_survived(terms, age, line);
  for (const LogGap& gap : lives.gaps) add_between(terms, gap, line);
  return terms;
}

}  // namespace

Result<ExponentialFit> fit_exponential(const WeibullLikelihood& likelihood) {
  const LogLives& lives = likelihood.lives();
  if (lives.counts.failures == 0) return refuse(ErrorCode::bad_input, "no failure among them: no exponential fit");
  double level = likelihood.start().level;
  Terms now = likelihood.at({1, level});
  for (int round = 0; round < 200; ++round) {
    const double step = std::isfinite(now.value) ? std::clamp(-now.by_level / now.by_level2, -4.0, 4.0) : -4.0;
    const bool is_last = now.by_level * now.by_level < -decrement_last * now.by_level2;
    level += step;
    now = likelihood.at({1, level});
    if (!is_last) continue;
    if (-now.by_level2 < information_min) break;
    const double mean = likelihood.weibull({1, level}).scale;
    if (!(mean > 0 && mean < never)) break;
    return ExponentialFit{mean, now.value};
  }
  return refuse(ErrorCode::bad_input, "no exponential fit: every part had failed at every look");
}

Result<LognormalFit> fit_lognormal(std::span<const Observed> observed) {
  LogLives lives;
  lives.take(observed);
  if (lives.counts.failures == 0) return refuse(ErrorCode::bad_input, "no failure among them: no lognormal fit");
  const double spread = lives.failed_y_spread;
  const auto terms = [&lives](const Line& line) { return lognormal_terms(lives, line); };
  const Highest highest = maximise(terms, {spread > 1e-9 ? std::min(1 / spread, 1e3) : 1, 0});
  if (highest.ending != Ending::found) {
    return refuse(ErrorCode::bad_input, "no lognormal fit: the lives do not determine its spread");
  }
  return LognormalFit{lives.origin - highest.line.level / highest.line.slope, 1 / highest.line.slope,
                      highest.terms.value};
}

}  // namespace hw::life
