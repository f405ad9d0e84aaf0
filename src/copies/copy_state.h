#pragma once
// How a shop's copies stand, and when a person has to be told.

#include <cstdint>
#include <optional>
#include <string>

#include <boost/describe/enum.hpp>

#include "libs/values/instant.h"

namespace hw::copies {

enum class Keeping {
  not_needed,  // nobody would miss the shop: the demo's
  none,        // no folder for copies was named
  nightly,
};

struct GoodCopy {
  Instant made_at;
  std::uint64_t bytes = 0;  // of its file
};

struct CopyState {
  Keeping keeping = Keeping::not_needed;
  std::optional<GoodCopy> last_good;
  std::string trouble;  // why the last one could not be made, in a sentence; empty when it could
};

// Why a person has to see to the copies.
enum class Concern { none, not_set_up, failed, old };
BOOST_DESCRIBE_ENUM(Concern, none, not_set_up, failed, old)

// A copy is old after this long.
inline constexpr Duration old_after = Duration::hours(48);

Concern concern_of(const CopyState& state, Instant now);

// The same in a sentence, with what to do: for /readyz and `doctor`.
std::string says(const CopyState& state, Instant now);

}  // namespace hw::copies
