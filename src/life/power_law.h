#pragma once
// The power law of repaired machines (Crow 1974; MIL-HDBK-189 (1981); NIST e-Handbook 8.4.5.2): failures expected up to
// age t are M(t) = lambda t^beta. beta above 1: ever more often.
//
// Two conventions for one machine, both given:
//   maximum likelihood (MIL-HDBK-189, most texts)   beta = n / sum log(T / t)
//   unbiased (NIST: "modified")                     (n - 1) / sum, where watched up to a time; (n - 2) / sum, up to a
//   failure
// Watched up to a failure the last term of the sum is 0, and beta's interval has 2 (n - 1) degrees instead of 2 n.

#include <optional>
#include <span>

#include "src/life/repairs.h"

namespace hw::life {

struct PowerLaw {
  double beta = 1;
  double lambda = 1;

  double expected(double from, double to) const;  // failures from one age to another
  double intensity(double age) const;             // failures per unit of age
};

struct PowerLawFit {
  PowerLaw likeliest;
  std::optional<PowerLaw> unbiased = {};  // lambda for that beta, so that M(T) = n; nothing with too few failures
  double beta_lower = 0;                  // interval for beta, exact
  double beta_upper = 0;
  double loglik = 0;
  std::optional<double> cramer_von_mises = {};  // distance of the ages from the unbiased fit; large: no power law
  std::optional<double> mtbf_lower = {};        // of the unbiased MTBF at the end, watched up to a time, NIST 8.4.5.2
  std::optional<double> mtbf_upper = {};
};

// One machine. Errors: bad_input where no failure is left before the end of the watch.
Result<PowerLawFit> fit_power_law(const Repairs& repairs, double conf);

// Several machines of one kind that share beta and lambda. beta solves n / beta + sum log t = n sum T^beta log T /
// sum T^beta; a machine without failures brings its T. Errors: as above.
Result<PowerLaw> fit_pooled_power_law(std::span<const Repairs> machines);

}  // namespace hw::life
