#pragma once
// How a proposed plan differs from what is agreed: stops to agree, to move, to change, to drop, each with what it saves
// and why.
//
// Of a proposal only next executions count (first_turns.h). An agreed stop is where most of its tasks are in the
// proposal; its tasks that are done while the machine runs stay with it. The tasks of a stop of today, or of one that
// is over and not closed, are in no other. The saving of a difference is what the next executions of its tasks cost by
// `now` (what is agreed, and the rest by a rule) less what they cost in the proposal; what later executions and
// overtime save is in the plans' costs and in no difference.

#include <string>
#include <vector>

#include "libs/values/sentence.h"
#include "src/proposal/first_turns.h"
#include "src/proposal/services_ahead.h"
#include "src/proposal/stop_instance.h"

namespace hw::proposal {

enum class DifferenceKind { made, moved, changed, dropped };  // the first is a new stop

struct StopPlace {
  LocalDate on;
  std::string shift;
};

struct Difference {
  std::string key;  // within its proposal
  DifferenceKind kind = DifferenceKind::made;
  std::string machine;
  std::string stop;               // the agreed one; empty: a new one
  int version = 0;                // of that stop, as it was seen
  std::optional<StopPlace> from;  // where the agreed stop is
  std::optional<StopPlace> to;    // nothing: dropped
  plan::EnergyState state = plan::EnergyState::stopped;
  std::vector<std::string> tasks;      // all that are in the stop then
  std::optional<std::string> service;  // the service of the machine's kind that is done in it, by its key
  double minutes = 0;                  // that the machine stands
  double saving = 0;
  std::vector<Sentence> reasons;
};

struct PlanPair {
  const plan::StopPlan& now;
  const plan::StopPlan& then;
};

// In order of day, shift and machine; dropped ones first. What stands for a service in the instance is told as the
// tasks that it stands for; `shop` is the shop as it is, with these tasks.
std::vector<Difference> differences_of(const ShopAhead& shop, const StopInstance& made, const PlanPair& plans);

}  // namespace hw::proposal
