#pragma once
// Changes to the stops of one machine, tried on a draft, and taken back where they are not wanted. Each placing is
// exact for its task (draft.h); what a change adds is that several tasks move together, and that a stop of another
// machine makes room for one: of scarce crews and places, each machine alone can find no better share.

#include <vector>

#include "libs/numerics/random.h"
#include "src/plan/draft.h"

namespace hw::plan {

// How much worse a change may make the plan and still be kept: an exponentially distributed amount with this mean
// (simulated annealing: Kirkpatrick, Gelatt and Vecchi 1983).
struct Leniency {
  double mean = 0;
};

// Where stops are worth trying: [machine][slot], the sum up to that slot of weights above 0.
using SlotWeights = std::vector<std::vector<float>>;

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

  std::size_t placings() const { return placings_; }  // so far: the measure of work done

 private:
  bool try_close(numerics::Random& random);
  bool try_shift(numerics::Random& random);
  bool try_open(int machine, numerics::Random& random);
  bool try_anew(int machine, numerics::Random& random);
  bool try_displace(numerics::Random& random);
  void begin(int machine);
  void touch(TaskAt at);
  void place(TaskAt at, const Lead& lead);
  void take_touched();
  void place_touched(const Lead& lead);
  void shift_touched(int from, int to, std::size_t count);
  void settle(int machine, numerics::Random& random);
  bool keep_or_take_back();
  void find_open(int machine);
  int slot_near(int slot, numerics::Random& random) const;
  int slot_worth_trying(numerics::Random& random) const;
  int neighbour_stopped_in(int slot, numerics::Random& random) const;
  void touch_in(int machine, int slot);

  Draft& draft_;
  const SlotWeights& weights_;
  std::vector<int> machines_;
  std::vector<int> place_of_;  // by machine, in machines_
  std::size_t placings_ = 0;
  int machine_ = 0;
  double cost_before_ = 0;
  double allowance_ = 0;
  std::vector<int> open_;              // slots of the machine's stops
  std::vector<TaskAt> touched_;        // in the order in which they were
  std::vector<Slots> slots_before_;    // of each of them
  std::vector<float> opening_factor_;  // by slot
  std::vector<char> is_banned_;
};

}  // namespace hw::plan
