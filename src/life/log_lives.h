#pragma once
// Lives as the likelihoods want them: logarithms of ages, counted from an origin in their middle, sorted by what each
// contributes. Made once per set of lives; nothing is allocated afterwards, and nothing anew where it is made again.

#include <span>
#include <vector>

#include "src/life/observed.h"

namespace hw::life {

struct LogAge {
  double y = 0;       // log(age) - origin
  double weight = 0;  // how many lives; negative for an entry, from which on a life is taken as given
};
struct LogGap {
  double y_lower = 0;  // minus infinity where lower is 0
  double y_upper = 0;
  double weight = 0;
};

class LogLives {
 public:
  // Lives without fault (fault_of).
  void take(std::span<const Observed> lives);

  double origin = 0;
  LifeCounts counts;
  std::vector<LogAge> exact;     // failed at
  std::vector<LogAge> survived;  // still good at; entries with a negative weight
  std::vector<LogGap> gaps;      // failed between
  double exact_y_sum = 0;        // weighted
  double failed_y_spread = 0;    // standard deviation of the failures' logarithms, those of gaps at their middle

 private:
  void find_origin(std::span<const Observed> lives);
};

}  // namespace hw::life
