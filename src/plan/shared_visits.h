#pragma once
// What the bound knows of crews' travel: the tasks of one visit share its price, as those of one machine share a stop's
// (shared_openings.h).
//
// A crew that comes to a place in a slot is paid for once, however many tasks of however many machines it does there.
// Give each of them a share v[t, slot] >= 0 of that price (the crew's cost, and its hours at their premium and price)
// such that in every slot the shares sum to no more than it. Whatever visits a plan makes, the tasks done in them pay
// no more than they cost; so each task's cheapest route, paying both of its shares, still bounds the whole from below.
// Shares are raised as those of stops are: mirror ascent with entropy.

#include <span>
#include <vector>

#include "src/plan/shared_openings.h"

namespace hw::plan {

// A task that a visit's crew does, by its place in the model.
struct VisitTask {
  std::size_t machine = 0;
  std::size_t task = 0;
};

// One visit of the model in all slots.
class SharedVisit {
 public:
  // `model` must outlive this.
  SharedVisit(const Model& model, std::size_t visit);

  const std::vector<VisitTask>& tasks() const { return tasks_; }
  // By slot, of the i-th of those tasks; it stays where it is in memory.
  std::span<const float> shares(std::size_t i) const { return {shares_.data() + i * slots_, slots_}; }
  // What the visit costs in each slot; `forbidden` where the crew has not the hours.
  std::span<const float> price() const { return price_; }

  // The routes of the last relax, of the i-th task. Their shares of the visit's hours are added to `crew_hours`.
  void follow(std::size_t i, const Slots& route, std::vector<double>& crew_hours);
  // Moves the shares by a step (0 to about 2) and fits them to the prices of hours that will be asked for next, of the
  // crew by slot, premium included.
  void raise(float step, const std::vector<float>& labour);

 private:
  void fit_price(const std::vector<float>& labour);
  void scale_to_price();

  const Model* model_;
  const VisitModel* visit_;
  std::size_t slots_;
  std::vector<VisitTask> tasks_;
  std::vector<float> shares_;     // [task][slot]
  std::vector<float> direction_;  // [task][slot]: where its routes went lately
  std::vector<float> price_;      // by slot
};

}  // namespace hw::plan
