#include "src/kits/stock_level.h"

#include <cmath>
#include <numeric>

#include <boost/math/special_functions/beta.hpp>

#include "libs/values/assert.h"
#include "src/kits/poisson.h"

namespace hw::kits {
namespace {

// The smallest whole number from 0 on that is enough; is_enough is false up to some number and true from there on.
template <class IsEnough>
double smallest_enough(const IsEnough& is_enough) {
  if (is_enough(0)) return 0;
  double high = 1;
  while (!is_enough(high)) high *= 2;
  double low = std::floor(high / 2);
  while (high - low > 1) {
    const double middle = low + std::floor((high - low) / 2);
    (is_enough(middle) ? high : low) = middle;
  }
  return high;
}

double negative_binomial_below(double shape, double chance, double s) {
  return chance >= 1 ? 1 : boost::math::ibeta(shape, s + 1, chance);
}

double negative_binomial_above(double shape, double chance, double s) {
  return chance >= 1 ? 0 : boost::math::ibetac(shape, s + 1, chance);
}

// 1 - R(age + x) / R(age), without subtracting two numbers that are nearly the same.
double failure_chance(const PartLife& life, double age, double until) {
  const double hazard = age > 0
                            ? std::pow(age / life.scale, life.shape) * std::expm1(life.shape * std::log1p(until / age))
                            : std::pow(until / life.scale, life.shape);
  return -std::expm1(-hazard);
}

std::vector<double> sum_of_chances(std::span<const double> chances) {
  std::vector<double> pmf = {1};
  for (const double chance : chances) {
    pmf.push_back(0);
    for (std::size_t n = pmf.size() - 1; n > 0; --n) pmf[n] = pmf[n] * (1 - chance) + pmf[n - 1] * chance;
    pmf[0] *= 1 - chance;
  }
  return pmf;
}

}  // namespace

BaseStock base_stock(double mean, double wanted) {
  BaseStock stock;
  stock.mean = mean;
  stock.s_no_stockout = poisson_level(mean, wanted);
  stock.achieved = poisson_below(mean, stock.s_no_stockout);
  stock.s_fill_rate = stock.s_no_stockout + 1;
  stock.fill_rate_achieved = stock.achieved;
  stock.ebo_at_s = poisson_missing(mean, stock.s_no_stockout);
  stock.mean_on_hand_at_s = poisson_left(mean, stock.s_no_stockout);
  return stock;
}

double lead_time_demand(const FailingParts& parts) {
  HW_ASSERT(parts.mtbf_h > 0, "an MTBF above 0");
  return parts.n_parts * parts.use_h_per_day * parts.lead_days / parts.mtbf_h;
}

UncertainStock stock_for_uncertain_rate(double shape, double seen_hours, double hours_to_cover, double wanted) {
  HW_ASSERT(shape > 0 && seen_hours > 0 && hours_to_cover >= 0 && wanted > 0 && wanted < 1,
            "shape and hours above 0, a chance inside (0, 1)");
  const double chance = seen_hours / (seen_hours + hours_to_cover);
  UncertainStock stock;
  stock.mean = shape * hours_to_cover / seen_hours;
  stock.s = smallest_enough([&](double s) {
    return negative_binomial_below(shape, chance, s) >= wanted ||
           negative_binomial_above(shape, chance, s) <= 1 - wanted;
  });
  stock.achieved = negative_binomial_below(shape, chance, stock.s);
  stock.poisson_s = poisson_level(stock.mean, wanted);
  return stock;
}

AgedStock stock_for_known_ages(const PartLife& life, std::span<const double> ages, double until, double wanted) {
  HW_ASSERT(life.shape > 0 && life.scale > 0 && until >= 0 && wanted > 0 && wanted < 1,
            "shape and scale above 0, a chance inside (0, 1)");
  AgedStock stock;
  for (const double age : ages) stock.fail_prob.push_back(failure_chance(life, age, until));
  stock.expected = std::accumulate(stock.fail_prob.begin(), stock.fail_prob.end(), 0.0);
  stock.pmf = sum_of_chances(stock.fail_prob);
  double above = 0;
  std::size_t s = ages.size();
  while (s > 0 && above + stock.pmf[s] <= 1 - wanted) above += stock.pmf[s--];
  stock.s = static_cast<double>(s);
  stock.achieved = 1 - above;
  return stock;
}

}  // namespace hw::kits
