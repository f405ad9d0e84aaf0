#pragma once
// What is known of one life, or of several alike: it ended after `lower` and by `upper`. Ages in any unit of use.
//
//   lower = upper          failed exactly then
//   upper infinite         suspended: taken out, still good, at lower (censored on the right)
//   lower = 0              failed some time before upper (censored on the left)
//   otherwise              failed between two looks (censored in between)
//   entry                  observed only from this age on: had it failed before, nobody would know of it (truncated)

#include <limits>
#include <optional>
#include <span>
#include <string>

namespace hw::life {

inline constexpr double never = std::numeric_limits<double>::infinity();

struct Observed {
  double lower = 0;
  double upper = never;
  double count = 1;
  double entry = 0;
};

inline bool is_exact(const Observed& life) { return life.lower == life.upper; }
inline bool is_suspended(const Observed& life) { return life.upper == never; }

enum class ObservedField { lower, upper, count, entry };

struct ObservedFault {
  ObservedField field = ObservedField::lower;
  std::string says;
};

// What is wrong with it, or nothing: ages are at least 0 and at most 1e100, lower <= upper, one of them above 0, the
// entry before the life ends, the count whole and from 1 to 1e9.
std::optional<ObservedFault> fault_of(const Observed& life);

// The greatest age at which one of them is known to have been, or by which it is known to have failed; 0 of none.
double oldest_age(std::span<const Observed> lives);

struct LifeCounts {
  double failures = 0;
  double exact = 0;  // those of the failures whose age is known
  double suspensions = 0;
};
LifeCounts count_lives(std::span<const Observed> lives);

}  // namespace hw::life
