#pragma once
// Which rounds were expected by the plant's calendar, which of them were walked, and which were missed.
//
// A turn is one time at which a round is expected:
//   each shift   the shift, from its beginning to its end
//   each day     a working day, from the beginning of its first shift to the end of its last; it counts as that day's,
//                also where the last shift ends after midnight
//   each week    from the beginning of the first working day from Monday on to the end of the week's last one
//   before start-up  none: the machine's start calls for it, not the clock
// In a plant without shifts the day is its shift, from midnight to midnight. A closed day or week has no turn, so
// nothing is missed on it.
//
// A turn is walked when the answers of all its walks together cover what one of these walks set out to answer: two
// people can share a round. A walk of which only answers arrived has no such list, and cannot make a turn walked alone.
//
// A walk belongs to a turn in which it began; one that began outside of all turns belongs to the turn that begins at
// most an hour later (operators come early: common practice). Where turns overlap, the earliest that nobody has walked
// takes it. How late a walk ended does not matter.

#include <string>
#include <string_view>
#include <vector>

#include "src/catalogue/plant_calendar.h"
#include "src/catalogue/round.h"

namespace hw::due {

struct RoundTurn {
  LocalDate on;
  std::string shift;  // the shift's name; empty for days and weeks
  Instant begins_at;
  Instant ends_at;
};

// From `begins_at` to just before `ends_at`.
struct TimeSpan {
  Instant begins_at;
  Instant ends_at;
};

// The turns that begin within the span, in order of time: a span that begins when the round came to be expects no turn
// that had begun before it. Spans that follow each other share no turn and lose none. The span is at most some years.
std::vector<RoundTurn> turns_of(catalogue::Rhythm rhythm, const catalogue::PlantCalendar& calendar, TimeSpan span);

// Operators come early by that much at most.
inline constexpr Duration early_max = Duration::hours(1);

// The whole local day, on which a machine may be started up.
RoundTurn day_of(const catalogue::PlantCalendar& calendar, LocalDate day);

// One person's walk of a round. Checks by their keys, in any order.
struct RoundWalk {
  Instant begins_at;
  std::vector<std::string> checks;    // what it set out to answer; none: not known
  std::vector<std::string> answered;  // what it answered
};

// ahead        it has not begun
// open         it runs and not all of the round is answered
// walked       all of it is, however late
// half walked  it is over; somebody began the round, and some of it is not answered
// missed       it is over and nobody began
enum class TurnState { ahead, open, walked, half_walked, missed };

// "ahead", "open", "walked", "half walked", "missed".
std::string_view word_of(TurnState state);

struct TurnStanding {
  RoundTurn turn;
  TurnState state = TurnState::ahead;
  std::vector<std::size_t> walks;  // which of the walks given belong to it, in order of their beginning
};

// `turns` in order of time as turns_of gives them, `walks` of that round in any order. Walks in no turn are left out;
// they made no turn that was expected.
std::vector<TurnStanding> standings(const std::vector<RoundTurn>& turns, const std::vector<RoundWalk>& walks,
                                    Instant now);

}  // namespace hw::due
