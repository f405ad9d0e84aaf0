#pragma once
// Why a proposed stop is where it is, in sentences: what its tasks share, what standing costs then, how likely one of
// them falls due earlier, and what stands against another day.

#include <vector>

#include "src/proposal/differences.h"

namespace hw::proposal {

inline constexpr std::size_t reasons_max = 4;

// Of one difference with a place, the weightiest first; at most `reasons_max`. `visited_too`: names of other machines
// for which the outside service comes then as well.
std::vector<Sentence> reasons_for(const ShopAhead& shop, const StopInstance& made, const Difference& difference,
                                  const FirstTurns& now, const std::vector<std::string>& visited_too);

}  // namespace hw::proposal
