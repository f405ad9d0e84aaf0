#pragma once
// The shop as planning a fleet's services sees it: for each machine and service of its kind one task that stands for
// all that is done in it this time.
//
// What is in it: those of the service's tasks that the machine has and that most likely fall due before the service
// after this one would come; the others wait for that. It falls due with the first of them that goes by a calendar
// interval about as long as the service's own, on that exact date and with that tolerance; where there is none, when
// the first of them most likely does. Done today, it would fall due after its months.
//
// Agreed stops stand. A stop that holds half of a service's tasks or more is that service's stop, unless it has its day
// or no room for what it lacks. Tasks that are in other agreed stops are done there and not in the service; they, and
// all else that is agreed, take their people's hours and their cell's places and are not moved. All other tasks are
// left out of the plan.

#include <string>
#include <vector>

#include "src/proposal/first_turns.h"
#include "src/proposal/shop_ahead.h"

namespace hw::proposal {

inline constexpr int services_weeks = 52;

struct PlannedService {
  std::string machine;
  std::string id;                  // of the task that stands for it
  std::string service;             // its key within its kind
  std::vector<std::string> tasks;  // keys, in the service's order
};

// One that falls due after the year, which is not in the plan.
struct LaterService {
  std::string machine;
  std::string service;
  LocalDate due_on;
};

struct ServicesAhead {
  ShopAhead shop;
  std::vector<PlannedService> planned;
  std::vector<LaterService> later;
};

ServicesAhead services_ahead(const ShopAhead& shop);

// The turns of services told as those of their tasks: in the same slot, each at an equal share of the cost.
FirstTurns turns_of_tasks(FirstTurns turns, const std::vector<PlannedService>& services);

}  // namespace hw::proposal
