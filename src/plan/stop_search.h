#pragma once
// The search for a good plan: every machine's stops are changed again and again (machine_moves.h), and the visits of
// crews that travel (visit_moves.h); worse plans are accepted less and less, and the work is split among threads by
// cells, those that have visits in common together.
//
// Each thread has a draft of the whole plan and changes its own machines. Of a crew that machines of several threads
// need, each gets a part of a slot's free hours; few hours go to one thread a round, by turns. So what the threads
// chose fits together. As overtime gets dearer with every hour, together they cost no more than each thread thought.

#include <memory>
#include <vector>

#include "src/plan/machine_moves.h"
#include "src/plan/visit_moves.h"

namespace hw::plan {

class StopSearch {
 public:
  // Starts from a draft in which every task was placed a few times. Model and weights must outlive this.
  StopSearch(const Model& model, const SlotWeights& weights, std::size_t threads, std::uint64_t seed);

  // Tries runs of changes to one machine each, `moves` of them on every thread. `leniency`: how much worse they may be.
  void round(std::size_t moves, Leniency leniency);

  const Draft& draft() const { return parts_[0]->draft; }
  // The cheapest choice at the end of a round so far.
  const Choice& best() const { return best_; }
  double best_cost() const { return best_cost_; }
  double work() const;  // done so far by all threads, about in seconds

 private:
  struct Part {
    Part(const Model& model, const SlotWeights& weights, std::uint64_t seed, std::vector<int> its_machines)
        : draft(model),
          machines(std::move(its_machines)),
          moves(draft, weights, machines),
          visit_moves(draft, weights, machines),
          random(seed) {}
    Draft draft;
    std::vector<int> machines;
    MachineMoves moves;
    VisitMoves visit_moves;
    numerics::Random random;
  };

  void place_agreed();
  std::vector<int> joined_cells() const;
  std::vector<std::vector<int>> split_machines(std::size_t parts);
  void share_crews(std::size_t part);
  void bring_together();
  void keep_best();

  const Model* model_;
  std::vector<std::unique_ptr<Part>> parts_;
  std::vector<char> is_shared_;  // by crew: needed by several parts
  std::uint64_t rounds_ = 0;
  Choice best_;
  double best_cost_ = 0;
};

}  // namespace hw::plan
