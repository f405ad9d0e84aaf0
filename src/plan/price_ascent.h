#pragma once
// A lower bound for a whole instance, raised step by step: prices on crew hours and on places in cells (what couples
// machines), for each machine the shares of its tasks in opening stops (shared_openings.h), and for each crew that
// travels the shares of its tasks in its visits (shared_visits.h).
//
// bound = sum over machines of their bound at the prices
//         - sum over crews and slots of price * hours + max(0, price - overtime cost) * overtime hours
//         - sum over cells and slots of price * places.
// It holds for any prices of 0 or more. A step follows the use beyond what there is; steps become shorter while the
// bound does not rise (Held, Wolfe and Crowder 1974).

#include <memory>
#include <vector>

#include "src/plan/shared_visits.h"

namespace hw::plan {

class PriceAscent {
 public:
  // The model must outlive this. `threads` at least 1.
  PriceAscent(const Model& model, std::size_t threads);

  // One step on all machines. Gives back the bound at the prices before it.
  double step();
  double best_bound() const { return best_bound_; }
  // Steps have become too short to change anything.
  bool is_settled() const { return step_length_ < step_length_min; }
  const SharedOpenings& machine(std::size_t machine) const { return *machines_[machine]; }
  const SharedVisit& visit(std::size_t visit) const { return visits_[visit]; }

 private:
  static constexpr float step_length_min = 2e-5F;

  void price_labour();
  double paid_for_limits() const;
  void shorten_steps(double bound);
  void move_crew_prices();
  void move_cell_prices();
  void follow_visits();
  void raise_shares();

  const Model* model_;
  std::size_t threads_;
  std::vector<std::unique_ptr<SharedOpenings>> machines_;
  std::vector<SharedVisit> visits_;
  std::vector<double> machine_bounds_;
  Prices prices_;
  std::vector<std::vector<float>> labour_;  // [crew][slot]: premium and price
  std::vector<Usage> usage_;                // by thread; the first becomes the sum
  float step_length_ = 0.3F;                // how fast prices and shares move, 0 to 1
  double best_bound_;
  int steps_without_rise_ = 0;
};

}  // namespace hw::plan
