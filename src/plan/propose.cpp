#include "src/plan/propose.h"

#include <algorithm>
#include <cmath>

#include "src/plan/draft_plan.h"
#include "src/plan/price_ascent.h"
#include "src/plan/stop_search.h"

namespace hw::plan {
namespace {

constexpr double ascent_share = 0.3;            // of effort and time, for the bound
constexpr double seconds_per_relaxed = 2.2e-6;  // effort of one task in one step of the ascent
constexpr std::size_t moves_per_machine = 4;  // runs of moves in a round on each thread, within the limits that follow
constexpr std::size_t moves_least = 100;
constexpr std::size_t moves_most = 5000;
constexpr int rounds_for_places = 25;      // also after the time is over, while a task has no place
constexpr float chance_elsewhere = 0.02F;  // weight of a slot in which the relaxed plans open no stop
constexpr double coldest = 2;              // money; the least leniency before it is 0
constexpr double cold_from = 0.9;          // of the search's work
constexpr double warmest_share = 1;        // of what the dearest stops cost, the leniency at the start

std::size_t task_count(const Model& model) {
  std::size_t count = 0;
  for (const MachineModel& machine : model.machines) count += machine.tasks.size();
  return count;
}

// The share of what was planned that is done: by work or by the clock, whichever is further.
double progress(double work_done, double work_planned, double time_used) {
  return std::max(work_done / std::max(work_planned, 1e-9), time_used);
}

double ascend(PriceAscent& ascent, const Model& model, const ProposeOptions& options) {
  const double step_work =
      static_cast<double>(task_count(model)) * seconds_per_relaxed / static_cast<double>(options.threads);
  double work = 0;
  while (progress(work, options.effort, options.time_used()) < ascent_share && !ascent.is_settled()) {
    ascent.step();
    work += step_work;
  }
  return work;
}

// Where the relaxed plans open stops is where the search tries to; now and then elsewhere.
SlotWeights weights_of(const PriceAscent& ascent, const Model& model) {
  SlotWeights weights(model.machines.size());
  for (std::size_t m = 0; m < weights.size(); ++m) {
    float sum = 0;
    for (const float opened : ascent.machine(m).opened()) {
      weights[m].push_back(sum += std::min(1.0F, opened) + chance_elsewhere);
    }
  }
  return weights;
}

std::size_t moves_per_round(const Model& model) {
  return std::clamp(moves_per_machine * model.machines.size(), moves_least, moves_most);
}

double warmest(const Model& model) {
  double sum = 1;
  for (const MachineModel& machine : model.machines) sum += machine.locked.cost;
  return warmest_share * sum / static_cast<double>(std::max<std::size_t>(1, model.machines.size()));
}

// It falls by the same factor in the same time; in the end only what is cheaper is kept.
double leniency_at(double cooled, double hot) {
  return cooled < cold_from ? hot * std::pow(coldest / hot, cooled / cold_from) : 0;
}

void search(StopSearch& stops, const Model& model, const ProposeOptions& options, double work_begun, double bound) {
  const double begin = progress(work_begun, options.effort, options.time_used());
  const double hot = warmest(model);
  for (double done = begin; done < 1;) {
    const double cooled = (done - begin) / std::max(1e-9, 1 - begin);
    stops.round(moves_per_round(model), {leniency_at(cooled, hot)});
    if (stops.best_cost() - bound <= options.gap_target * stops.best_cost()) return;
    const double work = stops.work() / static_cast<double>(options.threads);
    done = progress(work_begun + work, options.effort, options.time_used());
  }
}

// A plan that leaves a task out is none: some work is done for it whatever the clock says.
void find_places(StopSearch& stops, const Model& model) {
  for (int i = 0; i < rounds_for_places && stops.best_cost() >= Draft::price_of_no_place; ++i) {
    stops.round(moves_per_round(model), {warmest(model)});
  }
}

}  // namespace

Proposal propose_stops(const Instance& instance, const Model& model, const ProposeOptions& options) {
  PriceAscent ascent(model, options.threads);
  const double work = ascend(ascent, model, options);
  const SlotWeights weights = weights_of(ascent, model);
  StopSearch stops(model, weights, options.threads, options.seed);
  search(stops, model, options, work, ascent.best_bound());
  find_places(stops, model);
  Draft best(model);
  best.put_all(stops.best());
  Proposal proposal;
  proposal.plan = plan_of(instance, best);
  proposal.choice = best.choice();
  proposal.without_place = best.tasks_without_place();
  proposal.cost = evaluate_plan(instance, proposal.plan).cost;
  proposal.bound = std::min(ascent.best_bound(), proposal.cost.total());
  proposal.plan.claimed_cost = proposal.cost.total();
  proposal.plan.claimed_bound = proposal.bound;
  return proposal;
}

}  // namespace hw::plan
