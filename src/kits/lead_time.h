#pragma once
// How long deliveries take, learned: the days that the supplier quotes are where it begins, each delivery moves it.
//
// The logarithm of the days is normal with unknown mean and variance; before any delivery these are believed to be as
// normal-inverse-gamma has it, and the next delivery is Student's on the logarithm (Gelman et al., Bayesian Data
// Analysis, section 3.3; from memory):
//
//   kappa = kappa0 + n      middle = (kappa0 log quoted + sum log x) / kappa      nu = nu0 + n
//   nu s^2 = nu0 sd0^2 + sum (log x - mean)^2 + kappa0 n (mean - log quoted)^2 / kappa
//   log L ~ Student(nu) * s sqrt(1 + 1/kappa) + middle
//
// The quoted days count as kappa0 = 2 deliveries, their scatter of sd0 = 0.25 as nu0 = 6: our own choice. Days are
// whole; a delivery on the day of the order counts as half a day.

#include <span>
#include <vector>

#include "libs/values/sentence.h"

namespace hw::kits {

class LeadTime {
 public:
  // quoted_days above 0; took_days at least 0 each, from the order to the delivery.
  explicit LeadTime(double quoted_days, std::span<const double> took_days = {});

  // P(an order is there by the end of so many days), and that of one that was not there after `age_days`.
  double within(int days) const;
  double within_after(int age_days, int more_days) const;
  // The days within which it comes with that chance, in (0, 1); whole, at least 1.
  int quantile(double chance) const;

  // P(it comes exactly l days after the order), l = 0 .. size - 1; 0 at l = 0. What comes later than 99.9 % is in the
  // last.
  const std::vector<double>& by_day() const { return by_day_; }
  double mean_days() const;  // of by_day

  double quoted_days() const { return quoted_days_; }
  std::size_t deliveries() const { return deliveries_; }
  // Where it comes from, in a sentence: "delivery takes 9 d, 95 % within 16 d (quoted 8 d, 5 deliveries)".
  Sentence working() const;

 private:
  double log_above(double days) const;  // P(L > days)

  double quoted_days_;
  std::size_t deliveries_;
  double middle_ = 0, scale_ = 1, degrees_ = 1;
  std::vector<double> by_day_;
};

}  // namespace hw::kits
