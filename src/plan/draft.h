#pragma once
// A plan being worked on: which tasks are done in which slots, what is used of crews, cells and stops by that, and what
// it costs, kept up to date with every change. It always keeps all limits; tasks that found no place are listed.
//
// Given all the rest, one task's cheapest slots are found exactly (place): the price of a slot is what it adds there
// (overtime, opening a stop, making it a locked one), and day_routes.h finds the days.

#include <vector>

#include "src/plan/model.h"

namespace hw::plan {

struct TaskAt {
  int machine = 0;
  int task = 0;
  bool operator==(const TaskAt&) const = default;
};

// How a placing is led away from what is cheapest right now. Arrays by slot, null: no lead.
struct Lead {
  const float* opening_factor = nullptr;  // of what opening or locking a stop costs, and the visit of a crew
  const char* is_banned = nullptr;
};

// One machine's stop in one slot.
struct StopUse {
  double down_hours = 0;  // of its tasks, without set-up
  int stopped = 0;        // tasks of that state
  int locked = 0;
  bool is_open() const { return stopped + locked > 0; }
  EnergyState state() const { return locked > 0 ? EnergyState::locked : EnergyState::stopped; }
};

// Where every task is done: a draft without its sums.
using Choice = std::vector<std::vector<Slots>>;  // [machine][task]

class Draft {
 public:
  // Nothing is done yet; tasks that may be left out are left out, the others count as without a place. The model must
  // outlive the draft.
  explicit Draft(const Model& model);

  const Model& model() const { return *model_; }
  // Money; tasks without a place cost `price_of_no_place` each, so that a search finds them one.
  double cost() const { return cost_; }
  std::vector<TaskAt> tasks_without_place() const;

  const Slots& slots_of(TaskAt at) const { return slots_[index(at.machine)][index(at.task)]; }
  const StopUse& stop(int machine, int slot) const { return stops_[index(machine)][index(slot)]; }
  double hours_used(int crew, int slot) const { return crew_hours_[index(crew)][index(slot)]; }
  // Whether the crew of that visit (Model::visits) comes in that slot.
  bool is_visited(int visit, int slot) const { return executions_[index(visit)][index(slot)] > 0; }
  const Choice& choice() const { return slots_; }

  // Takes the task out of all its slots. It then counts as without a place if it has to be done.
  void take(TaskAt at);
  // Puts a task that was taken out into slots that have room for it (as those it was in before).
  void put(TaskAt at, const Slots& slots);
  // Takes the task out and puts it where it costs least given all the rest. False if it finds no place.
  bool place(TaskAt at, const Lead& lead = {});
  // The same, but only the offered slots, by rising day, come into question: ten times as fast where they are few.
  bool place_among(TaskAt at, const Slots& offered, const Lead& lead = {});
  // What the task would cost less if it could be done in that slot too, whose stop is open: the best of doing it there
  // once more, or instead of the execution before or after. Limits and overtime are not looked at.
  double gain_with(TaskAt at, int slot) const;

  // What doing the task once more in that slot would add; forbidden where there is no room. The task should be out.
  double price(TaskAt at, int slot) const;
  // All of a choice whose slots have room for it together.
  void put_all(const Choice& choice);
  // One machine's tasks as another draft has them; crews may be overdrawn until that draft's other changes follow.
  void adopt(int machine, const std::vector<Slots>& tasks);
  // Beside what is used already, only so many of the crew's hours in that slot may be used.
  void limit_crew(int crew, int slot, double free_hours);
  // The sum anew, so that rounding does not build up.
  void recount();

  static constexpr double price_of_no_place = 1e7;

 private:
  template <class Integer>
  static std::size_t index(Integer i) {
    return static_cast<std::size_t>(i);
  }
  const TaskModel& task(TaskAt at) const { return model_->machines[index(at.machine)].tasks[index(at.task)]; }
  double timing(TaskAt at) const;
  double labour_price(const TaskModel& task, std::size_t slot, double opening_factor) const;
  double stop_price(const MachineModel& machine, const TaskModel& task, const StopUse& use, std::size_t slot,
                    double opening_factor) const;
  double price_led(TaskAt at, std::size_t slot, const Lead& lead) const;
  double link_cost(const TaskModel& task, int from, int to) const;
  void offer_days(TaskAt at, const Lead& lead);
  int offer_agreed(TaskAt at, const Lead& lead, RouteTable<double>& table);
  void enter(TaskAt at, int slot);
  void leave(TaskAt at, int slot);
  double slot_cost(int machine, int slot) const;
  double travel_to(int visit, int slot);
  double travel_no_more_to(int visit, int slot);

  const Model* model_;
  double cost_ = 0;
  Choice slots_;
  std::vector<std::vector<StopUse>> stops_;      // [machine][slot]
  std::vector<std::vector<double>> crew_hours_;  // [crew][slot]
  std::vector<std::vector<double>> crew_limit_;  // [crew][slot]: hours with overtime, or what is left to this draft
  std::vector<std::vector<int>> cell_down_;      // [cell][slot]
  std::vector<std::vector<int>> executions_;     // [visit][slot]
  RouteRoom<double> room_;
  std::vector<double> day_price_;   // of the task that is being placed
  std::vector<int> day_slot_;       // where that price is to be had
  std::vector<double> first_cost_;  // its first_cost, where a slot is agreed
  std::vector<int> days_;
  Slots chosen_;
  std::vector<RouteNode> few_;  // slots offered to it
};

}  // namespace hw::plan
