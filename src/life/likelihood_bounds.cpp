#include "src/life/likelihood_bounds.h"

#include <cmath>

#include "libs/numerics/gamma_tail.h"
#include "libs/numerics/root.h"

namespace hw::life {
namespace {

constexpr double reach_max = 650;  // in logarithms: farther off, exp would end at 0 or infinity
constexpr double bound_tolerance = 1e-11;

// A family of lines: for a figure psi, the level as a straight function of the slope, level = z + slope depth.
struct Family {
  double z = 0;
  double depth = 0;
  double z_by_psi = 0;
  double depth_by_psi = 0;
};

struct Profile {
  double value = 0;
  double by_psi = 0;
  double found = 1;  // the best slope or level, where the next search begins
};

struct Along {
  double value = 0, first = 0, second = 0, by_level = 0;
};

Along along_family(const WeibullLikelihood& likelihood, const Family& family, double slope) {
  const Terms at = likelihood.at({slope, family.z + slope * family.depth});
  return {at.value, at.by_slope + family.depth * at.by_level,
          at.by_slope2 + 2 * family.depth * at.by_slope_level + family.depth * family.depth * at.by_level2,
          at.by_level};
}

// The best slope within the family: Newton's steps, never more than fivefold, halved where they overshoot.
Profile best_of_family(const WeibullLikelihood& likelihood, const Family& family, double slope) {
  Along now = along_family(likelihood, family, slope);
  for (int round = 0; round < 100 && slope > 1e-12; ++round) {
    // Begun where the likelihood underflows, only smaller slopes lead back.
    if (!std::isfinite(now.value)) {
      slope *= 0.5;
      now = along_family(likelihood, family, slope);
      continue;
    }
    const double step = std::clamp(-now.first / -std::abs(now.second), -0.8 * slope, 4 * slope);
    const bool is_last = now.first * now.first < 1e-16 * std::abs(now.second);
    double share = 1;
    Along there = along_family(likelihood, family, slope + step);
    const double least = now.value - 1e-13 * std::abs(now.value);
    const bool is_near = now.first * now.first < decrement_near * std::abs(now.second);
    while (!is_near && !(there.value >= least) && share > 1e-18) {
      share *= 0.5;
      there = along_family(likelihood, family, slope + share * step);
    }
    slope += share * step;
    now = there;
    if (is_last) break;
  }
  return {now.value, now.by_level * (family.z_by_psi + slope * family.depth_by_psi), slope};
}

// The figure is the slope itself: only the level is free.
Profile best_level(const WeibullLikelihood& likelihood, double slope, double level) {
  Terms now = likelihood.at({slope, level});
  for (int round = 0; round < 100; ++round) {
    const double step = std::isfinite(now.value) ? std::clamp(-now.by_level / now.by_level2, -4.0, 4.0) : -4.0;
    const bool is_last = now.by_level * now.by_level < -1e-16 * now.by_level2;
    level += step;
    now = likelihood.at({slope, level});
    if (is_last) break;
  }
  return {now.value, now.by_slope, level};
}

// The end of the interval on one side: out in growing steps until the profile lies below the target, then back.
// `profile(psi, begin)` begins its search at what the last one found. `gone` where no end is within reach.
template <class ProfileAt>
double find_end(const ProfileAt& profile, double best, double step, double begin, double target, double gone) {
  double inside = best;
  for (;; step *= 1.6) {
    if (std::abs(inside + step - best) > reach_max) return gone;
    const Profile at = profile(inside + step, begin);
    if (!(at.value > target)) break;
    inside += step;
    begin = at.found;
  }
  const auto above_target = [&](double psi) {
    const Profile at = profile(psi, begin);
    return numerics::Sloped{std::isnan(at.value) ? -1e300 : at.value - target, at.by_psi};
  };
  return numerics::find_root(above_target, inside, inside + step, bound_tolerance);
}

double target_of(const WeibullFit& fit, double conf) {
  return fit.loglik - 0.5 * numerics::chi_squared_quantile(conf, 1);
}

}  // namespace

Bounds likely_shape(const WeibullLikelihood& likelihood, const WeibullFit& fit, double conf) {
  // psi = log slope; the level begins where the middle of the ages keeps its hazard.
  const auto profile = [&](double psi, double level) {
    const double slope = std::exp(psi);
    Profile at = best_level(likelihood, slope, level);
    at.by_psi *= slope;
    return at;
  };
  const double best = std::log(fit.line.slope);
  const double step = wald_deviate(conf) * std::sqrt(fit.log_shape_variance);
  const double target = target_of(fit, conf);
  return {std::exp(find_end(profile, best, -step, fit.line.level, target, -never)),
          std::exp(find_end(profile, best, step, fit.line.level, target, never))};
}

Bounds likely_quantile(const WeibullLikelihood& likelihood, const WeibullFit& fit, double share, double conf) {
  // psi = log age: z there is fixed, so level = z - slope (psi - origin).
  const double origin = likelihood.lives().origin;
  const double z = std::log(-std::log1p(-share));
  const auto profile = [&](double psi, double slope) {
    return best_of_family(likelihood, Family{z, origin - psi, 0, -1}, slope);
  };
  const double best = std::log(quantile(fit.life, share));
  const double step = std::log(wald_quantile(fit, share, conf).upper) - best;
  const double target = target_of(fit, conf);
  return {std::exp(find_end(profile, best, -step, fit.line.slope, target, -never)),
          std::exp(find_end(profile, best, step, fit.line.slope, target, never))};
}

Bounds likely_scale(const WeibullLikelihood& likelihood, const WeibullFit& fit, double conf) {
  return likely_quantile(likelihood, fit, -std::expm1(-1.0), conf);
}

Bounds likely_reliability(const WeibullLikelihood& likelihood, const WeibullFit& fit, double age, double conf) {
  // psi = z at that age.
  const double depth = likelihood.lives().origin - std::log(age);
  const auto profile = [&](double psi, double slope) {
    return best_of_family(likelihood, Family{psi, depth, 1, 0}, slope);
  };
  const double best = fit.line.level - fit.line.slope * depth;
  const double upper = std::log(-std::log(wald_reliability(fit, age, conf).lower));
  const double step = std::isfinite(upper) ? upper - best : 1;
  const double target = target_of(fit, conf);
  return {std::exp(-std::exp(find_end(profile, best, step, fit.line.slope, target, never))),
          std::exp(-std::exp(find_end(profile, best, -step, fit.line.slope, target, -never)))};
}

}  // namespace hw::life
