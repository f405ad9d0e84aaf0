#pragma once
// What the entries of a round hold and say.

#include "src/catalogue/round.h"
#include "src/service/open_shop.h"
#include "src/service/round_edits.h"

namespace hw::service {

inline constexpr std::string_view begun_kind = "round begun";
// "check answered", or "others as they should be".
std::string_view kind_of(const AnswersEdit& edit);

// Both fill an entry that has its signature and counters. `machine` is nothing where the shop has none of that key.
// What the machine does not have (any more) makes the entry stray.
void tell_begun(Entry& entry, const OpenMachine* machine, catalogue::Rhythm rhythm, const WalkEdit& edit);
// Refuses what given_answers refuses.
Result<void> tell_answers(Entry& entry, const OpenMachine* machine, catalogue::Rhythm rhythm, const AnswersEdit& edit);

}  // namespace hw::service
