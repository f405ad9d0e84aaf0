#pragma once
// Why a task finds no place, and the smallest relaxation that would give it one.
//
// First the task is tried alone in an empty shop: if even that fails, no plan can keep its limits, and the sentence
// says "cannot". Else other work stands in its way, and the sentence says "found no place". Then each limit is relaxed
// alone, by as little as helps: days of lateness, hours of its crew, one more machine down in its cell, blackouts, the
// shift.

#include <string>

#include "src/plan/draft.h"

namespace hw::plan {

// One sentence. `draft` is the plan in which the task has no place.
std::string explain_no_place(const Instance& instance, const Draft& draft, TaskAt at);

}  // namespace hw::plan
