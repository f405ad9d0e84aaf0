#pragma once
// What one stop would cost, at once: for a page on which it is dragged from slot to slot. Nothing else is planned or
// changed; no tables are built, so that an answer takes microseconds.
//
// Of each task the next execution is looked at, as of the first in a plan: what doing it on that day loses against the
// day on which it falls due, apart for the part of the five equally likely cases in which that is early and in which it
// is late (cycle_cost.h). Money, hours and days as in instance.h.

#include <string>
#include <vector>

#include "src/plan/slot_calendar.h"

namespace hw::plan {

// Hours of a crew in the slot that other work has.
struct TakenHours {
  std::string crew;
  double hours = 0;
};

struct StopTry {
  std::string machine;
  DayShift slot;
  std::vector<std::string> tasks;
  std::vector<TakenHours> taken;           // the way to visits there are included
  std::vector<std::string> visiting = {};  // crews that come to the machine's place in that slot anyway
};

struct TaskEstimate {
  std::string task;
  double early_loss = 0;
  double late_loss = 0;
  double early_days = 0;  // expected, against the day on which it falls due; 0 in the cases in which it is late
  double late_days = 0;
  double chance_due_before = 0;  // 0 to 1: that it falls due before that day
  int best_day = 0;              // within the horizon and its limits: the cheapest for the task alone
  double best_loss = 0;          // then
};

struct CrewEstimate {
  std::string crew;
  double wants_hours = 0;
  double has_hours = 0;       // offered and not taken, 0 or more
  double overtime_hours = 0;  // what this stop needs of it
  double overtime_cost = 0;
  bool is_enough = true;      // with all the overtime there is
  bool travels = false;       // to the machine's place
  bool shares_visit = false;  // that it makes there anyway: the way costs this stop nothing
  double travel_cost = 0;     // of the visit that the stop opens
  double travel_hours = 0;    // the same; in wants_hours
};

struct StopEstimate {
  EnergyState state = EnergyState::stopped;  // running: no task asks for a stop, and nothing stands
  double set_up = 0;
  double standing = 0;
  double premium = 0;
  double overtime = 0;
  double moving = 0;          // of tasks that are agreed for another slot
  double travel = 0;          // of visits that it opens
  double standing_hours = 0;  // set-up included
  double hours_over_shift = 0;
  std::vector<TaskEstimate> tasks;  // in the order asked for
  std::vector<CrewEstimate> crews;
  std::vector<std::string> troubles;  // limits that the stop breaks, each in one sentence

  double timing() const;  // early and late losses
  double total() const { return set_up + standing + premium + overtime + moving + travel + timing(); }
};

// The instance must be one that check_instance accepts. Errors: not_found for a machine or a task that is not there;
// bad_input for a slot outside the horizon.
Result<StopEstimate> estimate_stop(const Instance& instance, const StopTry& asked);

}  // namespace hw::plan
