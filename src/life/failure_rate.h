#pragma once
// The mean time between failures where they come evenly (an exponential life, or repairs without trend), with exact
// bounds by chi-square (NIST e-Handbook 8.4.5.1; MIL-HDBK-338, from memory).

#include <optional>

namespace hw::life {

enum class WatchEnd { at_a_time, at_a_failure };

struct MeanBetween {
  std::optional<double> mean;   // T / r; nothing without failures
  double lower = 0;             // 2 T / chi2(1 - a/2; 2 r + 2), or 2 r where the watch ended at a failure
  std::optional<double> upper;  // 2 T / chi2(a/2; 2 r); nothing without failures
};

// Total time T above 0; failures r at least 0, at least 1 where the watch ended at one; conf = 1 - a inside (0, 1).
// Without failures the lower bound is one-sided: T / -log(1 - conf).
MeanBetween mean_between(double total, double failures, WatchEnd end, double conf);

// The one-sided lower bound: 2 T / chi2(conf; 2 r + 2), or 2 r.
double mean_between_at_least(double total, double failures, WatchEnd end, double conf);

}  // namespace hw::life
