#pragma once
// Changes to the stops of one machine, tried on a draft with all the rest held fixed, and taken back where they are not
// wanted. Each placing is exact for its task (draft.h); what a change adds is that several tasks move together.

#include <vector>

#include "libs/numerics/random.h"
#include "src/plan/draft.h"

namespace hw::plan {

// How much worse a change may make the plan and still be kept: an exponentially distributed amount with this mean
// (simulated annealing: Kirkpatrick, Gelatt and Vecchi 1983).
struct Leniency {
  double mean = 0;
};

class MachineMoves {
 public:
  // The draft must outlive this.
  explicit MachineMoves(Draft& draft);

  // One change of a kind chosen by chance. True if it was kept.
  bool try_one(int machine, Leniency leniency, numerics::Random& random);
  // Every task of the machine once, in that order, at its cheapest.
  void place_all(int machine);

  std::size_t placings() const { return placings_; }  // so far: the measure of work done

 private:
  bool try_close(numerics::Random& random);
  bool try_shift(numerics::Random& random);
  bool try_open(int machine, numerics::Random& random);
  bool try_anew(int machine, numerics::Random& random);
  void begin(int machine);
  void touch(int task);
  void place(int task, const Lead& lead);
  void place_touched(const Lead& lead);
  void settle(numerics::Random& random);
  bool keep_or_take_back();
  void find_open(int machine);
  int slot_near(int slot, numerics::Random& random) const;
  void touch_in(int slot);

  Draft& draft_;
  std::size_t placings_ = 0;
  int machine_ = 0;
  double cost_before_ = 0;
  double allowance_ = 0;
  std::vector<int> open_;              // slots of the machine's stops
  std::vector<int> touched_;           // tasks, in the order in which they were
  std::vector<char> is_touched_;       // by task
  std::vector<Slots> slots_before_;    // by task, of touched ones
  std::vector<float> opening_factor_;  // by slot
  std::vector<char> is_banned_;
};

}  // namespace hw::plan
