#include "src/life/power_law.h"

#include <algorithm>
#include <cmath>

#include "libs/numerics/gamma_tail.h"
#include "libs/numerics/root.h"
#include "src/life/weibull_fit.h"

namespace hw::life {
namespace {

// M(T) = n at the end of the watch.
PowerLaw through_end(double beta, double count, double end) { return {beta, count / std::pow(end, beta)}; }

double distance_from(const PowerLaw& law, const Repairs& repairs) {
  const double count = failures_within(repairs);
  double sum = 1 / (12 * count);
  for (std::size_t k = 0; k < static_cast<std::size_t>(count); ++k) {
    const double share = std::pow(repairs.ages[k] / end_of_watch(repairs), law.beta);
    const double even = (2 * static_cast<double>(k) + 1) / (2 * count);
    sum += (share - even) * (share - even);
  }
  return sum;
}

// NIST 8.4.5.2 (its form from memory; its printed example is met): an approximation for the MTBF at the end.
void set_mtbf_bounds(PowerLawFit& fit, double count, double end, double conf) {
  const double z = wald_deviate(conf);
  const double mtbf = 1 / fit.unbiased->intensity(end);
  const double far = count + z * z / 4 + std::sqrt(count * z * z / 2 + z * z * z * z / 16);
  const double near = count - z * std::sqrt(count / 2);
  fit.mtbf_lower = mtbf * count * (count - 1) / (far * far);
  if (near > 0) fit.mtbf_upper = mtbf * count * (count - 1) / (near * near);
}

}  // namespace

double PowerLaw::expected(double from, double to) const { return lambda * (std::pow(to, beta) - std::pow(from, beta)); }

double PowerLaw::intensity(double age) const { return lambda * beta * std::pow(age, beta - 1); }

Result<PowerLawFit> fit_power_law(const Repairs& repairs, double conf) {
  const auto count = static_cast<double>(repairs.ages.size());
  const double end = end_of_watch(repairs);
  double sum = 0, log_sum = 0;
  for (const double age : repairs.ages) {
    sum += std::log(end / age);
    log_sum += std::log(age);
  }
  if (!(sum > 0)) {
    return refuse(ErrorCode::bad_input, "no failure before the end of the watch: a power law has no estimate");
  }
  PowerLawFit fit{.likeliest = through_end(count / sum, count, end)};
  const double beta = fit.likeliest.beta;
  fit.loglik = count * std::log(fit.likeliest.lambda * beta) + (beta - 1) * log_sum - count;
  const double degrees = 2 * failures_within(repairs);
  fit.beta_lower = numerics::chi_squared_quantile(0.5 - 0.5 * conf, degrees) / (2 * sum);
  fit.beta_upper = numerics::chi_squared_quantile(0.5 + 0.5 * conf, degrees) / (2 * sum);
  const double taken = repairs.until ? 1 : 2;
  if (count <= taken) return fit;
  fit.unbiased = through_end((count - taken) / sum, count, end);
  fit.cramer_von_mises = distance_from(*fit.unbiased, repairs);
  if (repairs.until) set_mtbf_bounds(fit, count, end, conf);
  return fit;
}

Result<PowerLaw> fit_pooled_power_law(std::span<const Repairs> machines) {
  double count = 0, log_sum = 0, longest = 0, within = 0;
  for (const Repairs& machine : machines) longest = std::max(longest, end_of_watch(machine));
  for (const Repairs& machine : machines) {
    for (const double age : machine.ages) {
      count += 1;
      log_sum += std::log(age / longest);
      within += age < longest ? 1 : 0;
    }
  }
  if (within == 0) {
    return refuse(ErrorCode::bad_input, "no failure before the end of the watch: a power law has no estimate");
  }
  // In units of the longest watch, over log beta; falls from n + ... to below 0.
  const auto score = [&](double log_beta) {
    const double beta = std::exp(log_beta);
    double sum = 0, first = 0, second = 0;
    for (const Repairs& machine : machines) {
      const double end = std::log(end_of_watch(machine) / longest);
      const double power = std::exp(beta * end);
      sum += power;
      first += power * end;
      second += power * end * end;
    }
    const double mean = first / sum;
    return numerics::Sloped{count + beta * (log_sum - count * mean),
                            beta * (log_sum - count * mean) - beta * beta * count * (second / sum - mean * mean)};
  };
  double upper = 1;
  while (score(upper).value > 0 && upper < 100) upper *= 2;
  if (upper >= 100) return refuse(ErrorCode::bad_input, "all failures came at the end of the watch: no power law");
  const double beta = std::exp(numerics::find_root(score, -60, upper, 1e-13));
  double sum = 0;
  for (const Repairs& machine : machines) sum += std::pow(end_of_watch(machine), beta);
  return PowerLaw{beta, count / sum};
}

}  // namespace hw::life
