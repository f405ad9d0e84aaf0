#include "src/life/difference.h"

namespace hw::life {

std::string_view word_of(LikenessVerdict verdict) {
  switch (verdict) {
    case LikenessVerdict::unknown:
      break;
    case LikenessVerdict::no_difference_seen:
      return "no difference seen";
    case LikenessVerdict::differ:
      return "differ";
  }
  return "unknown";
}

Difference judge_difference(std::span<const std::vector<Observed>> groups) {
  Difference found{compare_survival(groups), compare_weibull(groups)};
  if (!found.log_rank && !found.weibull) return found;
  if (found.log_rank && found.weibull) found.p_needed = false_alarms / 2;
  const bool is_seen =
      (found.log_rank && found.log_rank->p < found.p_needed) || (found.weibull && found.weibull->p < found.p_needed);
  found.verdict = is_seen ? LikenessVerdict::differ : LikenessVerdict::no_difference_seen;
  return found;
}

}  // namespace hw::life
