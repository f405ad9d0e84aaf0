#pragma once
// What people do by a rule instead of computing, on the same instance and within the same limits, for comparison:
//
// - each task on the day on which it falls due;
// - at the first stop, everything that falls due within 14 days as well (but nothing before half its cycle);
// - one service day every four weeks: each task on the last one before it falls due; what is due oftener, on its day.
//
// What is agreed is kept where it has room. Due is the middle of the five due days. Where a day has no room for a task,
// the nearest day that has takes it; of a day's shifts the cheapest. A task that a rule finds no place for is placed
// where it costs least.

#include <optional>

#include "src/plan/draft.h"

namespace hw::plan {

enum class Habit { due_day, with_next_14_days, monthly_service };

// The draft that comes of it; tasks may be left without a place.
Draft plan_by_habit(const Instance& instance, const Model& model, Habit habit);

// What that costs; empty where a task found no place.
std::optional<double> cost_of_habit(const Instance& instance, const Model& model, Habit habit);

}  // namespace hw::plan
