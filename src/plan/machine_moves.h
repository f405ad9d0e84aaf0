#pragma once
// Changes to the stops of one machine, tried on a draft, and taken back where they are not wanted. A machine has few
// stops at a time; its tasks are placed among those and the one that a change offers, each exactly (draft.h), and among
// all slots only where they find no place there. What a change adds is that several tasks move together, and that a
// stop of another machine makes room for one: of scarce crews and places, each machine alone can find no better share.

#include <vector>

#include "libs/numerics/random.h"
#include "src/plan/draft_change.h"
#include "src/plan/slot_choice.h"

namespace hw::plan {

class MachineMoves {
 public:
  // Only `machines` are changed, those that stand together one after the other. Draft and weights must outlive this.
  MachineMoves(Draft& draft, const SlotWeights& weights, std::vector<int> machines);

  // A machine chosen by chance. There must be one.
  int any_machine(numerics::Random& random) const;

  // One change of a kind chosen by chance. True if it was kept.
  bool try_one(int machine, Leniency leniency, numerics::Random& random);
  // Every task of the machine once, in that order, at its cheapest.
  void place_all(int machine);

  double work() const { return change_.work(); }  // done so far, about in seconds of a usual computer of 2024

 private:
  struct Worth {
    double as_stopped = 0;
    double as_locked = 0;
  };

  const MachineModel& model_of(int machine) const { return draft_.model().machines[static_cast<std::size_t>(machine)]; }
  const TaskModel& task_of(TaskAt at) const { return model_of(at.machine).tasks[static_cast<std::size_t>(at.task)]; }
  bool try_close(EnergyState least, numerics::Random& random);
  bool try_shift(numerics::Random& random);
  bool try_open(numerics::Random& random);
  bool try_anew(int machine, numerics::Random& random);
  bool try_displace(numerics::Random& random);
  void begin(int machine);
  void touch_in(int machine, int slot, EnergyState least);
  void shift_touched(std::size_t begin, std::size_t end, int from, int to, Slots& open);
  void join(int machine, int slot, EnergyState most, const Slots& open);
  Worth worth_of(int slot);
  void settle(int machine, const Slots& open, numerics::Random& random);
  int neighbour_stopped_in(int slot, numerics::Random& random) const;

  Draft& draft_;
  DraftChange change_;
  SlotChoice choice_;
  std::vector<int> machines_;
  std::vector<int> place_of_;  // by machine, in machines_
  int machine_ = 0;
  Slots open_;                         // of the machine's stops, by rising day
  Slots open_there_;                   // of a neighbour's
  std::vector<float> opening_factor_;  // by slot
  std::vector<char> is_banned_;
};

}  // namespace hw::plan
