#pragma once
// Changes to the visits of crews that travel, tried on a draft, and taken back where they are not wanted. What a change
// adds to those of one machine (machine_moves.h) is that tasks of several machines move together: alone, each would
// have to pay for the visit that they could share.

#include <vector>

#include "src/plan/draft_change.h"
#include "src/plan/slot_choice.h"

namespace hw::plan {

class VisitMoves {
 public:
  // Only visits to `machines` are changed, which must be all of each visit. Draft and weights must outlive this.
  VisitMoves(Draft& draft, const SlotWeights& weights, const std::vector<int>& machines);

  bool has_visits() const { return !visits_.empty(); }
  // One change of a kind chosen by chance; there must be visits. True if it was kept.
  bool try_one(Leniency leniency, numerics::Random& random);

  double work() const { return change_.work(); }  // done so far, about in seconds of a usual computer of 2024

 private:
  using Tasks = std::vector<TaskAt>;  // those of a machine lie together

  const MachineModel& model_of(int machine) const { return draft_.model().machines[static_cast<std::size_t>(machine)]; }
  const TaskModel& task_of(TaskAt at) const { return model_of(at.machine).tasks[static_cast<std::size_t>(at.task)]; }
  bool try_close(numerics::Random& random);
  bool try_shift(numerics::Random& random);
  bool try_open(numerics::Random& random);
  void find_slots(const Tasks& tasks, Slots& slots) const;
  void touch_in(int slot, bool is_whole_stop);
  void move_touched(int from, int to);
  double add_gaining(Tasks::const_iterator begin, Tasks::const_iterator end, int slot);
  void place_touched_anew();
  Slots offered_to(int machine, int to) const;

  Draft& draft_;
  DraftChange change_;
  SlotChoice choice_;
  std::vector<Tasks> visits_;
  const Tasks* tasks_ = nullptr;       // of the visit that is being changed
  Slots slots_;                        // in which it is made, by rising day
  Tasks gaining_;                      // by a visit that is tried
  std::vector<float> opening_factor_;  // by slot
  std::vector<char> is_banned_;
};

}  // namespace hw::plan
