#pragma once
// Whether failures of a repaired machine come ever more often, ever more seldom, or evenly (NIST/SEMATECH e-Handbook
// 8.2.3.4; MIL-HDBK-189). Several machines are pooled, each with its own end.
//
//   Laplace       U = sum (t - T/2) / sqrt(sum T^2 / 12); above 0: more often. Looks for an intensity exp(a + b t).
//   MIL-HDBK-189  chi2 = 2 sum log(T / t) on 2 n degrees; large: more seldom. Looks for an intensity a t^(b - 1).
//   reversals     how often a later gap between failures is longer than an earlier one; assumes no form (one machine).
//
// A machine watched up to its last failure counts n - 1 failures, that one left out. Each answer is empty where no
// failure is left.

#include <optional>
#include <span>

#include "src/life/repairs.h"

namespace hw::life {

struct Laplace {
  double u = 0;
  double p_two_sided = 1;
};
std::optional<Laplace> laplace_test(std::span<const Repairs> machines);

struct MilHdbk189 {
  double chi2 = 0;
  double degrees = 0;
  double p_improving = 1;  // the chance of as much were there no trend
  double p_deteriorating = 1;
  double p_two_sided = 1;
};
std::optional<MilHdbk189> mil_hdbk_test(std::span<const Repairs> machines);

struct Reversals {
  double count = 0;
  double count_max = 0;
  double z = 0;  // above 0: improving; with NIST's + 1/2, good from 13 failures on
};
// At least two failures.
std::optional<Reversals> count_reversals(const Repairs& repairs);

}  // namespace hw::life
