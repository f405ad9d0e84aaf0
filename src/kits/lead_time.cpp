#include "src/kits/lead_time.h"

#include <algorithm>
#include <cmath>

#include <boost/math/distributions/students_t.hpp>

#include "libs/values/assert.h"

namespace hw::kits {
namespace {

constexpr double quoted_weight = 2, scatter_weight = 6, scatter_before = 0.25;
constexpr double tail_cut = 0.001;
constexpr int days_max = 1100;

// In double throughout: long double takes five times as long, for digits that nobody needs of a delivery.
using InDouble = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

double log_of(double days) { return std::log(std::max(days, 0.5)); }

}  // namespace

LeadTime::LeadTime(double quoted_days, std::span<const double> took_days)
    : quoted_days_(quoted_days), deliveries_(took_days.size()) {
  HW_ASSERT(quoted_days > 0 && std::isfinite(quoted_days), "quoted days above 0");
  const auto n = static_cast<double>(deliveries_);
  const double before = log_of(quoted_days);
  double sum = 0, squares = 0;
  for (const double days : took_days) sum += log_of(days);
  const double mean = deliveries_ > 0 ? sum / n : before;
  for (const double days : took_days) squares += std::pow(log_of(days) - mean, 2);
  const double kappa = quoted_weight + n;
  degrees_ = scatter_weight + n;
  middle_ = (quoted_weight * before + sum) / kappa;
  const double variance = (scatter_weight * scatter_before * scatter_before + squares +
                           quoted_weight * n * std::pow(mean - before, 2) / kappa) /
                          degrees_;
  scale_ = std::sqrt(variance * (1 + 1 / kappa));

  by_day_.push_back(0);
  double above = 1;
  for (int day = 1; above > tail_cut && day < days_max; ++day) {
    const double still_above = log_above(day);
    by_day_.push_back(above - still_above);
    above = still_above;
  }
  by_day_.back() += above;
}

// Whole days: one that says 3 took from 2.5 to 3.5.
double LeadTime::log_above(double days) const {
  const boost::math::students_t_distribution<double, InDouble> student(degrees_);
  return boost::math::cdf(boost::math::complement(student, (std::log(days + 0.5) - middle_) / scale_));
}

double LeadTime::within(int days) const { return days < 1 ? 0 : 1 - log_above(days); }

double LeadTime::within_after(int age_days, int more_days) const {
  if (more_days <= 0) return 0;
  const double still_open = age_days < 1 ? 1 : log_above(age_days);
  return std::clamp(1 - log_above(std::max(age_days, 0) + more_days) / still_open, 0.0, 1.0);
}

int LeadTime::quantile(double chance) const {
  HW_ASSERT(chance > 0 && chance < 1, "a chance inside (0, 1)");
  double sum = 0;
  for (std::size_t day = 1; day + 1 < by_day_.size(); ++day) {
    sum += by_day_[day];
    if (sum >= chance) return static_cast<int>(day);
  }
  return std::max(static_cast<int>(by_day_.size()) - 1, 1);
}

double LeadTime::mean_days() const {
  double mean = 0;
  for (std::size_t day = 0; day < by_day_.size(); ++day) mean += static_cast<double>(day) * by_day_[day];
  return mean;
}

Sentence LeadTime::working() const {
  const int middle = quantile(0.5), late = quantile(0.95);
  return sentence(
      {"delivery-takes",
       {},
       {{"days", double(middle)}, {"days_95", double(late)}, {"quoted", quoted_days_}, {"count", double(deliveries_)}}},
      "delivery takes {} d, with 95 % within {} d (quoted {:g} d, {} deliveries seen)", middle, late, quoted_days_,
      deliveries_);
}

}  // namespace hw::kits
