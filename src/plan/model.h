#pragma once
// An instance made ready for computing: names are indices, weekdays are slots, and what a cycle costs is a table.
//
// A slot's index is shift * days + day, so that a loop over days runs through memory in order. `forbidden` marks what
// is not allowed. Formulas for what cycles cost: cycle_cost.h.

#include <algorithm>
#include <vector>

#include "src/plan/day_routes.h"
#include "src/plan/instance.h"

namespace hw::plan {

inline constexpr double forbidden = 1e15;        // a cost; anything from half of it on is not allowed
inline constexpr double hours_tolerance = 1e-7;  // sums of hours may exceed a limit by rounding

using Slots = std::vector<int>;  // of one task's executions, by rising day

inline bool is_allowed(double cost) { return cost < forbidden / 2; }

// A crew that travels to a place: everything that it does there in one slot is one visit.
struct VisitModel {
  int crew = 0;
  double cost = 0;
  double hours = 0;  // of the crew's in that slot
};

struct TaskModel {
  int crew = 0;
  int visit = -1;  // that doing it is part of, in Model::visits; -1: its crew is there anyway
  EnergyState state = EnergyState::stopped;
  double labour_hours = 0;
  double down_hours = 0;
  int gap_min = 1;                 // days, at least 1: twice on one day only costs more
  std::vector<double> first_cost;  // by day of the first execution
  std::vector<double> gap_cost;    // by gap; gap_cost.size() - 1 is the greatest gap that fits
  std::vector<double> last_cost;   // by day of the last execution: the cycle open at the horizon
  double never_cost = 0;           // of not doing it within the horizon
  int agreed_slot = -1;  // of the first execution; -1: none. Other days have the price of moving in first_cost
  double move_cost = 0;  // of another slot than that; forbidden where it must be that one

  RouteTable<double> table() const;
  // What the first execution costs more in that slot, beside first_cost: another shift of the agreed day is a move.
  double shift_cost(int slot) const;
  // Where nothing is agreed: 0. Else what the first execution costs more on the agreed day than the cheapest slot of
  // that day, `day_price`, when the agreed slot costs `agreed_price`. Not below 0.
  template <class Number>
  Number first_extra(Number agreed_price, Number day_price) const {
    return std::min(agreed_price, day_price + static_cast<Number>(move_cost)) - day_price;
  }
};

struct CrewModel {
  std::vector<double> hours;      // by slot, without overtime
  std::vector<double> hours_max;  // with it
  std::vector<double> premium_per_hour;
  double overtime_cost_per_hour = 0;

  // What `hours` in that slot cost beyond normal time.
  double overtime_cost(std::size_t slot, double hours_used) const {
    return hours_used > hours[slot] ? (hours_used - hours[slot]) * overtime_cost_per_hour : 0;
  }
};

struct MachineModel {
  int cell = 0;
  SetUp stopped;
  SetUp locked;
  std::vector<double> loss_per_hour;  // by slot
  std::vector<char> may_stop;         // by slot: no blackout
  std::vector<TaskModel> tasks;

  const SetUp& set_up(EnergyState state) const { return state == EnergyState::locked ? locked : stopped; }
  double opening_cost(EnergyState state, std::size_t slot) const {
    const SetUp& what = set_up(state);
    return what.cost + what.hours * loss_per_hour[slot];
  }
};

struct Model {
  std::size_t days = 0;
  std::size_t shifts = 0;
  std::vector<double> shift_hours;  // by slot
  std::vector<CrewModel> crews;
  std::vector<std::vector<int>> cell_max_down;  // [cell][slot]
  std::vector<VisitModel> visits;
  std::vector<MachineModel> machines;

  std::size_t slots() const { return days * shifts; }
  std::size_t day_of(std::size_t slot) const { return slot % days; }
  // Of a visit, its hours' premium included; their overtime is not.
  double visit_cost(const VisitModel& visit, std::size_t slot) const {
    return visit.cost + visit.hours * crews[static_cast<std::size_t>(visit.crew)].premium_per_hour[slot];
  }
};

// The instance must be one that check_instance accepts.
Model build_model(const Instance& instance);

}  // namespace hw::plan
