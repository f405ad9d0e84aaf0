#pragma once
// One change to a draft while it is tried: which tasks it touched and where they were, so that it can be taken back
// where it made the plan dearer than is allowed.

#include <vector>

#include "libs/numerics/random.h"
#include "src/plan/draft.h"

namespace hw::plan {

// How much worse a change may make the plan and still be kept: an exponentially distributed amount with this mean
// (simulated annealing: Kirkpatrick, Gelatt and Vecchi 1983).
struct Leniency {
  double mean = 0;
};

bool is_done_in(const Slots& slots, int slot);

class DraftChange {
 public:
  // The draft must outlive this.
  explicit DraftChange(Draft& draft) : draft_(draft) {}

  // Nothing is touched, and the draft as it is is what the change is measured by.
  void begin();
  // Draws by how much the change may make the plan dearer; in the cold a rounding less than nothing.
  void allow(Leniency leniency, numerics::Random& random);
  double allowance() const { return allowance_; }

  // Remembers where the task is, once.
  void touch(TaskAt at);
  const std::vector<TaskAt>& touched() const { return touched_; }
  void take_touched();
  // Touches and places the task, among the offered slots (by rising day) or, where none of those will do, anywhere.
  void place(TaskAt at, const Lead& lead);
  void place_among(TaskAt at, const Slots& offered, const Lead& lead);
  // What the task gains by the stop in that slot; 0 or less for one that needs no stop or is done there already.
  double gain_with(TaskAt at, int slot);
  // True if it was kept.
  bool keep_or_take_back();

  // The slots in which the machine stands, by rising day.
  void find_open(int machine, Slots& open) const;
  // Keeps the order by day in which slots are offered; nothing where it is there already.
  void add_by_day(int slot, Slots& slots) const;

  double work() const { return work_; }  // done so far, about in seconds of a usual computer of 2024

 private:
  const TaskModel& task_of(TaskAt at) const {
    return draft_.model().machines[static_cast<std::size_t>(at.machine)].tasks[static_cast<std::size_t>(at.task)];
  }

  Draft& draft_;
  double work_ = 0;
  double cost_before_ = 0;
  double allowance_ = 0;
  std::vector<TaskAt> touched_;      // in the order in which they were
  std::vector<Slots> slots_before_;  // of each of them
};

}  // namespace hw::plan
