#pragma once
// From what a shop has ahead to the instance that the planning of stops works on (src/plan/instance.h), and back.
//
// The instance's day 0 is today, whatever its weekday: its tables by weekday begin with that day's row. Machines, cells
// and tasks keep their keys as ids; a crew's id is the word of its skill. What the figures rest on is told in
// docs/methods/plan.md, section "From the shop to the instance".
//
// Nothing is planned for today. The next execution of a task that is in an agreed stop is in that stop; a stop of
// today, or one that is over and not closed yet, counts as done today. Left out and listed are tasks without a due date
// within ten years, and those of stops that people agreed on against a limit (agreed_limits.h).

#include <map>
#include <string>
#include <vector>

#include "src/plan/instance.h"
#include "src/proposal/plant_slots.h"
#include "src/proposal/services_ahead.h"

namespace hw::proposal {

// Whether agreed stops may be moved, at the price that the shop puts on it.
enum class Moving { fixed, priced };

struct LeftOut {
  std::string machine;
  std::string task;
};

struct StopInstance {
  plan::Instance instance;
  PlantSlots slots;
  std::vector<LeftOut> left_out;
  std::vector<PlannedService> services = {};  // that are in it
};

// For the stops of `days`, 1 to 3,700. What comes is accepted by plan::check_instance.
StopInstance make_instance(const ShopAhead& shop, int days, Moving moving);

// For trying one stop: agreed stops change nothing in it, people are there today too, and a task without a date is in
// it but loses nothing by being early or late.
StopInstance instance_to_try(const ShopAhead& shop, int days);

}  // namespace hw::proposal
