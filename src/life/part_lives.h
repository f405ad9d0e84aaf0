#pragma once
// From what was done at one place of one machine to the lives of the parts that sat there, one after another.
//
// Each doing ends one part's life and begins the next one's. What is known of the life that it ended follows from how
// the part was found, and when it was known to have failed:
//
//   good, worn                              still good at its age then (suspended): worn is not failed
//   failed, and known since when            failed exactly then
//   failed, replaced outside a planned stop failed exactly at its age then: it was replaced because it had failed
//   failed, found so in a planned stop      failed some time before its age then
//   nothing said                            left out: nobody knows whether it had failed
//
// The part that sat there when the record began is left out too, as its age is not known. The part that sits there now
// is still good at its age.

#include <optional>
#include <span>
#include <vector>

#include "src/life/observed.h"

namespace hw::life {

enum class Found { good, worn, failed, unsaid };

// `at`: the counter's total when it was done, in the unit of the lives.
struct Doing {
  double at = 0;
  Found found = Found::unsaid;
  bool is_planned = false;               // done in a planned stop
  std::optional<double> failed_at = {};  // the counter's total when the failure was noticed
};

enum class LeftOut { age_unknown, not_said, no_use };

// The life that doing number `doing` ended (from 0); the last one's number is that of the doings: it still runs.
struct PartLife {
  std::size_t doing = 0;
  Observed life;
};
struct PartLeftOut {
  std::size_t doing = 0;
  LeftOut why = LeftOut::age_unknown;
};
struct PartLives {
  std::vector<PartLife> lives;
  std::vector<PartLeftOut> left_out;
};

// `doings` in the order in which they happened; `now` the counter's total now, or nothing where the place is not looked
// after any more. Where the counter does not rise between two doings, the life between them is left out (no_use).
PartLives part_lives(std::span<const Doing> doings, std::optional<double> now);

}  // namespace hw::life
