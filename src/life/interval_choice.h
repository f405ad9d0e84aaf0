#pragma once
// Which interval to propose to people, and what moving there is worth: the one of the least expected cost over all
// distributions that the lives allow (believed_lives.h), to two digits, and in one move no further than a quarter
// beyond the oldest age that any part has been seen at: beyond it the lives say nothing, only the distribution's shape
// does (our own choice).

#include "src/life/believed_lives.h"

namespace hw::life {

inline constexpr double reach_beyond_seen = 1.25;

inline constexpr double move_worth_making = 0.05;  // less than that share of the interval is no move

// What moving to an interval is worth.
struct JudgedInterval {
  double interval = 0;
  double rate_now = 0;  // expected cost per unit of use
  double rate_then = 0;
  Move move;
};
// Both above 0 and finite, in the unit of the lives.
JudgedInterval judge_interval(std::span<const Believed> believed, const ReplacementCosts& costs, double now,
                              double interval);

// The one that is proposed; the present one where there is nothing to move.
struct IntervalChoice : JudgedInterval {
  std::optional<double> best;  // of all intervals; nothing: run to failure
  bool is_held_back = false;   // the best lies beyond what the lives have shown
};

// `now`, the present interval, and `oldest` above 0 and finite, in the unit of the lives.
IntervalChoice choose_interval(std::span<const Believed> believed, const ReplacementCosts& costs, double now,
                               double oldest);

// To two digits, down: 1684 is 1600, 0.0384 is 0.038. Above 0.
double rounded_down(double interval);

}  // namespace hw::life
