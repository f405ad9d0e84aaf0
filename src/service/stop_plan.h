#pragma once
// From what a person wants to the plan of a stop: its shift in hours, its tasks as they are.

#include "src/service/open_shop.h"
#include "src/service/stop.h"

namespace hw::service {

// Minutes that a machine stands beside the hands-on work, by what the shop says: shut down and started again where it
// stays powered, and also isolated, locked, released of stored energy and given back where it is isolated. 0 for what
// is done in production; isolated takes no less than powered at rest.
double set_up_minutes(const catalogue::Stopping& stopping, catalogue::EnergyState energy);

// What a person wants of a stop; `stop` is its id.
struct WantedStop {
  std::string_view stop;
  LocalDate on;
  std::string shift;
  std::vector<std::string> tasks;
  std::string note;
};

// The plan of that day and shift without its tasks. Of several shifts of that name the one that works on that day, else
// the first; a plant without shifts has one without a name, the whole day. Refuses (bad_input) another shift.
Result<StopPlan> plan_of_shift(const catalogue::PlantCalendar& calendar, LocalDate on, const std::string& shift);

// A task as it is named in a plan.
PlannedTask planned(const catalogue::Task& task);

// Refuses (bad_input, naming the field) a shift that the plant does not have, a task that the machine does not have or
// that was retired, tasks that wait for each other; and (conflict) a task that is in another agreed stop of the
// machine. A shift may be named on a day on which it does not work: people may come in for a stop. The caller holds a
// lock.
Result<StopPlan> plan_of(const OpenShop& shop, const OpenMachine& machine, const WantedStop& wanted);

// Refuses (bad_input) a day that is over.
Result<void> check_is_ahead(const OpenShop& shop, LocalDate on, Instant now);

// The tasks as they are now; one that was retired stays as it was named.
std::vector<PlannedTask> present_tasks(const OpenMachine& machine, const StopPlan& plan);

// The strictest energy state that one of the tasks needs; powered at rest at least.
std::string energy_of(const std::vector<PlannedTask>& tasks);
// How long the machine stands with one person: set-up and the hands-on minutes of what is not done in production.
double standing_minutes(const catalogue::Stopping& stopping, const std::vector<PlannedTask>& tasks);

}  // namespace hw::service
