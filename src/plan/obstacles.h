#pragma once
// Why a task finds no place, and the smallest relaxation that would give it one.
//
// First the task is tried alone in an empty shop: if even that fails, no plan can keep its limits. Else other work
// stands in its way. Then each limit is relaxed alone, by as little as helps.

#include <string>
#include <vector>

#include "src/plan/draft.h"

namespace hw::plan {

enum class Relaxation {
  days_later,     // amount: days
  crew_hours,     // hours more of the crew `of` in each shift
  cell_places,    // machines more of the cell `of` down at once
  no_blackout,    // of its machine
  another_slot,   // than the agreed one
  no_closed_day,  // closed days as if they were open
  days_earlier,   // amount: days that it is ready before its first day
  shift_hours,    // hours by which each shift is longer
};

struct WayOut {
  Relaxation relaxation = Relaxation::days_later;
  double amount = 0;  // the least that helps; 0 where there is none to say
  std::string of;     // id of a crew or a cell
};

struct NoPlace {
  bool is_impossible = false;  // even if nothing else were to be done
  std::vector<WayOut> ways;    // each alone would do; empty: no single limit alone forbids it
};

// `draft` is the plan in which the task has no place.
NoPlace find_obstacles(const Instance& instance, const Draft& draft, TaskAt at);

// One sentence in the ids of the instance.
std::string explain_no_place(const Instance& instance, const Draft& draft, TaskAt at);

}  // namespace hw::plan
