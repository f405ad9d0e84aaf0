#pragma once
// Machines that stand: spells of days without use between days of work, and what they do to the time ahead.
//
// A spell is a run of at least three days without use (below 3 % of a day with use) on weekdays that usually have use;
// unknown and closed days neither begin nor end one. Spells begin by chance, with a rate per active day, and last an
// exponential time; both are gamma beliefs that begin wide and sharpen with what the history shows. The current spell
// counts as far as it has come: the longer a machine stands, the longer it is thought to go on. Time is counted in
// shares (future_days.h), so that a weekend or a closed day neither is active nor lengthens a spell.

#include <vector>

#include "src/due/daily_use.h"
#include "src/due/future_days.h"

namespace hw::due {

struct StandingBelief {
  double stops = 0;       // gamma shape of the rate at which spells begin ...
  double active = 0;      // ... and its inverse scale, in shares
  double ends = 0;        // gamma shape of the rate at which spells end, above 2 ...
  double resting = 0;     // ... and its inverse scale, in shares
  double stands_now = 0;  // chance that the machine is in a spell at the start
  int spells_seen = 0;

  double spell_mean() const { return resting / (ends - 1); }
};

// What one pass over the history finds.
struct StandingPast {
  StandingBelief belief;
  std::vector<char> stands;  // per day of the history: it belongs to a spell
};
StandingPast find_spells(const PastUse& past, const WeekdayShares& shares);

// The history without its spells: their days count no more.
PastUse without_spells(PastUse past, const std::vector<char>& stands);

// A part of the distribution of active time: with that chance so much of the time ahead is active.
struct ActivePart {
  double chance = 0;    // all sum to 1
  double fraction = 0;  // 0 to 1
};

// How much of the time that takes the next `shares` (above 0) the machine is active.
std::vector<ActivePart> active_parts(const StandingBelief& belief, double shares);

}  // namespace hw::due
