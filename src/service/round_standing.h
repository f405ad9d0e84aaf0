#pragma once
// Where a machine's rounds stand: the turns of the last days with their walks, and the turn that runs.

#include <optional>
#include <vector>

#include "src/catalogue/round.h"
#include "src/due/round_turns.h"
#include "src/service/open_shop.h"

namespace hw::service {

// So far back the walks of a machine are in memory: a week's turn that was over a week ago began earlier.
inline constexpr Duration walks_kept = Duration::hours(15 * 24);

// The rounds that follow from the machine's tasks that are not retired, in its walking order.
std::vector<catalogue::Round> rounds_of(const OpenMachine& machine);
// Their rhythms alone.
std::vector<catalogue::Rhythm> rhythms_of(const OpenMachine& machine);

// The turns of one round of a machine. Walks point into the machine.
struct RoundStanding {
  std::vector<const WalkRecord*> walks;
  std::vector<due::TurnStanding> turns;  // in order of time; their walks are places in `walks`
  std::optional<std::size_t> now;        // which of the turns runs, or begins within the hour

  std::vector<const WalkRecord*> walks_of(const due::TurnStanding& turn) const;
};
// No turn before the round came to be is missed. Before start-up the turns are yesterday and today, and none is missed.
RoundStanding round_standing(const catalogue::PlantCalendar& calendar, const OpenMachine& machine,
                             catalogue::Rhythm rhythm, Instant now);

// The turns that were expected to begin within the span, by these walks of the machine; none before the round came to
// be. `span` ends at `now` at the latest.
std::vector<due::TurnStanding> turns_within(const catalogue::PlantCalendar& calendar, const OpenMachine& machine,
                                            catalogue::Rhythm rhythm, const std::vector<WalkRecord>& walks,
                                            due::TimeSpan span, Instant now);

}  // namespace hw::service
