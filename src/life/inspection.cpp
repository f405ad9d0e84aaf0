#include "src/life/inspection.h"

#include <cmath>

#include "libs/numerics/gamma_tail.h"
#include "libs/numerics/root.h"

namespace hw::life {

// T = scale (overhaul / (repair (shape - 1)))^(1/shape).
OverhaulAdvice advise_overhaul(const Weibull& intensity, const OverhaulCosts& costs) {
  if (intensity.shape <= 1) return {};
  const double repairs = costs.overhaul / (costs.repair * (intensity.shape - 1));
  const double interval = intensity.scale * std::pow(repairs, 1 / intensity.shape);
  return {interval, (costs.overhaul + costs.repair * repairs) / interval, repairs};
}

double breakdown_share(const DelayTime& model, double interval) {
  const double u = interval / model.delay_mean;
  return u < 1e-5 ? u / 2 : 1 + std::expm1(-u) / u;
}

double down_share(const DelayTime& model, double interval) {
  return (model.defect_rate * interval * breakdown_share(model, interval) * model.breakdown_down +
          model.inspection_down) /
         (interval + model.inspection_down);
}

// The derivative of down_share has the sign of N'(T) (T + inspection_down) - N(T), N its numerator, which rises with
// T from below 0: it becomes 0 once or never.
InspectionAdvice advise_inspection(const DelayTime& model) {
  const double weight = model.defect_rate * model.breakdown_down;
  InspectionAdvice advice{std::nullopt, weight, weight, 1};
  const auto excess = [&](double log_interval) {
    const double interval = std::exp(log_interval);
    const double share = -std::expm1(-interval / model.delay_mean);
    const double numerator = weight * interval * breakdown_share(model, interval) + model.inspection_down;
    const double bend = weight * std::exp(-interval / model.delay_mean) / model.delay_mean;
    return numerics::Sloped{weight * share * (interval + model.inspection_down) - numerator,
                            interval * bend * (interval + model.inspection_down)};
  };
  const double middle = std::log(model.delay_mean);
  const double upper = middle + 6;  // 400 delays: all that will be is there
  if (!(excess(upper).value > 0)) return advice;
  double lower = middle;
  while (excess(lower).value > 0) lower -= 1;
  const double interval = std::exp(numerics::find_root(excess, lower, upper, 1e-13));
  return {interval, down_share(model, interval), weight, breakdown_share(model, interval)};
}

// For short intervals the difference 1 - mean_life_until / T loses digits: there the first terms of
// sum (-1)^(k+1) u^(k shape) / (k! (k shape + 1)), u = T / scale.
double unprotected_share(const Weibull& life, double interval) {
  const double power = std::pow(interval / life.scale, life.shape);
  if (power > 0.1) return 1 - mean_life_until(life, interval) / interval;
  double term = -1, sum = 0;
  for (int k = 1; k < 20; ++k) {
    term *= -power / k;
    sum += term / (k * life.shape + 1);
  }
  return sum;
}

double test_interval(const Weibull& life, double share) {
  const auto excess = [&](double log_u) {
    return numerics::Sloped{unprotected_share({life.shape, 1}, std::exp(log_u)) - share, 0};
  };
  double lower = 0, upper = 1;
  while (excess(lower).value > 0) lower -= 1;
  while (excess(upper).value < 0) upper += 1;
  return life.scale * std::exp(numerics::find_root(excess, lower, upper, 1e-13));
}

}  // namespace hw::life
