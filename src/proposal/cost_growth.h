#pragma once
// How a task's cost grows when it is done early or late, and whom it guards: from its work type, its assembly and its
// key, as docs/methods/plan.md says in a table. All figures are our own choice.

#include "src/catalogue/task.h"

namespace hw::proposal {

// `wear` is the exponent of the age-replacement shape (src/plan/cycle_cost.h): the higher, the less a few days matter
// and the more half an interval does. A day beyond the tolerance costs that share of an hour's standing.
struct CostGrowth {
  double wear = 2;
  double late_day_standing_hours = 0;
};

CostGrowth growth_of(catalogue::WorkType work);
// The same with the wear that the lives of its part have shown, from 1.1 to 6, where somebody moved its interval by
// them.
CostGrowth growth_of(const catalogue::Task& task);

// A task on what keeps people from harm: one that safety demands; the assembly of guards and doors; brakes,
// accumulators, interlocks by the words of its key. No lateness is planned for it. It does not say that anything else
// is harmless.
bool guards_people(const catalogue::Task& task);

}  // namespace hw::proposal
