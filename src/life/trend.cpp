#include "src/life/trend.h"

#include <algorithm>
#include <cmath>

#include "libs/numerics/gamma_tail.h"
#include "libs/numerics/normal_tail.h"

namespace hw::life {
namespace {

std::span<const double> ages_within(const Repairs& repairs) {
  return std::span(repairs.ages).first(static_cast<std::size_t>(failures_within(repairs)));
}

}  // namespace

std::optional<Laplace> laplace_test(std::span<const Repairs> machines) {
  double sum = 0, variance = 0;
  for (const Repairs& machine : machines) {
    const double end = end_of_watch(machine);
    for (const double age : ages_within(machine)) {
      sum += age - end / 2;
      variance += end * end / 12;
    }
  }
  if (variance == 0) return std::nullopt;
  const double u = sum / std::sqrt(variance);
  return Laplace{u, 2 * numerics::normal_below(-std::abs(u))};
}

std::optional<MilHdbk189> mil_hdbk_test(std::span<const Repairs> machines) {
  MilHdbk189 test;
  for (const Repairs& machine : machines) {
    for (const double age : ages_within(machine)) {
      test.chi2 += 2 * std::log(end_of_watch(machine) / age);
      test.degrees += 2;
    }
  }
  if (test.degrees == 0) return std::nullopt;
  test.p_improving = numerics::chi_squared_above(test.chi2, test.degrees);
  test.p_deteriorating = numerics::chi_squared_below(test.chi2, test.degrees);
  test.p_two_sided = 2 * std::min(test.p_improving, test.p_deteriorating);
  return test;
}

std::optional<Reversals> count_reversals(const Repairs& repairs) {
  const std::size_t n = repairs.ages.size();
  if (n < 2) return std::nullopt;
  std::vector<double> gaps(n);
  for (std::size_t k = 0; k < n; ++k) gaps[k] = repairs.ages[k] - (k > 0 ? repairs.ages[k - 1] : 0);
  Reversals reversals;
  for (std::size_t later = 1; later < n; ++later) {
    for (std::size_t earlier = 0; earlier < later; ++earlier) reversals.count += gaps[earlier] < gaps[later] ? 1 : 0;
  }
  const auto count = static_cast<double>(n);
  reversals.count_max = count * (count - 1) / 2;
  const double variance = (2 * count + 5) * (count - 1) * count / 72;
  reversals.z = (reversals.count - reversals.count_max / 2 + 0.5) / std::sqrt(variance);
  return reversals;
}

}  // namespace hw::life
