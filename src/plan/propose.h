#pragma once
// From an instance to the best plan found and a bound that proves how good it is: prices first (price_ascent.h), then
// the search (stop_search.h).
//
// What is done depends on the instance, seed, threads and effort alone. The clock comes in only by `progress`: the
// caller says which share of its time is used, and the work ends when the time or the planned effort does, whichever is
// first. Ended at any moment, the best plan so far and its bound are there.

#include <cstdint>
#include <functional>

#include "src/plan/draft.h"
#include "src/plan/stop_plan.h"

namespace hw::plan {

struct ProposeOptions {
  double gap_target = 0.01;  // of the cost: enough is enough
  std::size_t threads = 1;   // 1 to 64
  std::uint64_t seed = 1;
  double effort = 60;  // planned work, in seconds of a thread of a usual computer of 2024
  std::function<double()> time_used = [] { return 0.0; };  // share of the caller's time, 1: over
};

struct Proposal {
  StopPlan plan;  // with cost and bound claimed
  Choice choice;  // the same as indices
  PlanCost cost;
  double bound = 0;                   // no plan costs less
  std::vector<TaskAt> without_place;  // empty: the plan is complete

  double gap() const { return cost.total() > 0 ? (cost.total() - bound) / cost.total() : 0; }
};

Proposal propose_stops(const Instance& instance, const Model& model, const ProposeOptions& options);

}  // namespace hw::plan
