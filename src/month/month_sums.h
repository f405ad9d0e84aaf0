#pragma once
// What a month was, of one machine or added up over several: hours, counts and money, from which every key figure
// follows. Nothing here is a quotient, so that sums of machines are sums.

#include "libs/values/result.h"

namespace hw::month {

struct MonthSums {
  int machines = 0;

  // Hours of the plant's plan and of the counters.
  double planned_h = 0;    // PBT: hours of the shifts without those of agreed stops
  double operating_h = 0;  // APT: a program ran; counted, and filled by the control's own counter
  double powered_h = 0;
  double unknown_h = 0;          // nobody knows whether a program ran: in no number of hours
  double powered_unknown_h = 0;  // nobody knows whether the power was on

  // Failures: machines that had to be stopped.
  int failures = 0;          // FE: that happened in the month
  double between_h = 0;      // sum of TBF: hours that a program ran while no failure stopped the machine
  double repair_h = 0;       // sum of TTR of the month's failures, by the clock on the wall, until the month's end
  int repairs_going_on = 0;  // not over at the month's end: their TTR is longer than what is known

  // Standing, by the clock on the wall; the machine that stood for both counts as standing for the failure.
  double corrective_h = 0;  // CMT: for failures
  double stops_h = 0;       // PMT: for agreed stops

  // Hands-on hours of the tasks that were done.
  double work_h = 0;
  double work_in_stops_h = 0;

  int tasks_done = 0;
  int tasks_done_in_time = 0;    // before they were overdue
  int tasks_overdue_undone = 0;  // became overdue in the month and were not done in it
  int turns = 0;                 // of rounds, that are over
  int turns_walked = 0;

  // Money, in the shop's currency.
  double care_cost = 0;     // hands-on hours of tasks, and standing for stops while production was planned
  double failure_cost = 0;  // standing for failures while production was planned

  MonthSums& operator+=(const MonthSums& more);
};

// Refuses (bad_input, with the name) what cannot be: numbers that are negative or not finite, more in a part than in
// the whole.
Result<void> check(const MonthSums& sums);

}  // namespace hw::month
