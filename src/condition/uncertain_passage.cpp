#include "src/condition/uncertain_passage.h"

#include <algorithm>
#include <cmath>

#include "libs/numerics/gamma_tail.h"
#include "libs/numerics/normal_tail.h"
#include "libs/values/assert.h"

namespace hw::condition {
namespace {

constexpr std::size_t sigma_count = 11;
constexpr std::size_t nu_count = 21;

// The middles of equally likely parts.
double middle_of_part(std::size_t part, std::size_t count) {
  return (static_cast<double>(part) + 0.5) / static_cast<double>(count);
}

}  // namespace

UncertainPassage::UncertainPassage(const DriftFit& fit, double d, LimitSide side) : d_(d) {
  HW_ASSERT(d > 0 && fit.m >= 2, "a distance above 0 and at least two steps");
  const double degrees = static_cast<double>(fit.m) - 1;
  const double toward = side == LimitSide::above ? fit.nu : -fit.nu;
  // Readings exactly on a line scatter by nothing; a billionth of the distance stands for it.
  const double scatter = std::max(fit.sigma_unbiased, 1e-9 * d / std::sqrt(fit.span));
  for (std::size_t part = 0; part < sigma_count; ++part) {
    const double chi_square = numerics::chi_squared_quantile(middle_of_part(part, sigma_count), degrees);
    const double sigma = scatter * std::sqrt(degrees / chi_square);
    for (std::size_t n = 0; n < nu_count; ++n) {
      const double z = numerics::normal_quantile(middle_of_part(n, nu_count));
      drifts_.push_back({toward + z * sigma / std::sqrt(fit.span), sigma});
    }
  }
}

double UncertainPassage::below(double t) const {
  double sum = 0;
  for (const Drift& drift : drifts_) sum += first_passage_below(drift, d_, t);
  return sum / static_cast<double>(drifts_.size());
}

}  // namespace hw::condition
