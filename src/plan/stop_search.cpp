#include "src/plan/stop_search.h"

#include <algorithm>

#include "src/plan/workers.h"

namespace hw::plan {
namespace {

constexpr double hours_worth_halving = 2;  // each thread's part of a crew's free hours, or they go by turns
constexpr int moves_at_once = 16;          // on one machine, whose numbers are at hand then
constexpr int visit_moves_at_once = 3;     // after those, where somebody travels
constexpr int placings_at_start = 4;       // of every task

}  // namespace

StopSearch::StopSearch(const Model& model, const SlotWeights& weights, std::size_t threads, std::uint64_t seed)
    : model_(&model) {
  for (std::vector<int>& machines : split_machines(threads)) {
    parts_.push_back(std::make_unique<Part>(model, weights, seed * 1000 + parts_.size(), std::move(machines)));
  }
  place_agreed();
  MachineMoves& moves = parts_[0]->moves;
  for (int i = 0; i < placings_at_start; ++i) {
    for (std::size_t m = 0; m < model.machines.size(); ++m) moves.place_all(static_cast<int>(m));
  }
  for (std::size_t part = 1; part < threads; ++part) parts_[part]->draft.put_all(parts_[0]->draft.choice());
  best_ = draft().choice();
  best_cost_ = draft().cost();
}

// While all places are free, so that nothing else takes theirs.
void StopSearch::place_agreed() {
  for (std::size_t m = 0; m < model_->machines.size(); ++m) {
    const std::vector<TaskModel>& tasks = model_->machines[m].tasks;
    for (std::size_t t = 0; t < tasks.size(); ++t) {
      if (tasks[t].agreed_slot >= 0) parts_[0]->draft.place({static_cast<int>(m), static_cast<int>(t)});
    }
  }
}

// By cell, the first of those that one part has to have together: a visit that two parts share might turn out to be
// paid for by none of them.
std::vector<int> StopSearch::joined_cells() const {
  std::vector<int> joined(model_->cell_max_down.size());
  for (std::size_t cell = 0; cell < joined.size(); ++cell) joined[cell] = static_cast<int>(cell);
  std::vector<int> cell_of_visit(model_->visits.size(), -1);
  for (const MachineModel& machine : model_->machines) {
    for (const TaskModel& task : machine.tasks) {
      if (task.visit < 0) continue;
      int& first = cell_of_visit[static_cast<std::size_t>(task.visit)];
      if (first < 0) first = machine.cell;
      const int from = joined[static_cast<std::size_t>(machine.cell)];
      const int to = joined[static_cast<std::size_t>(first)];
      std::replace(joined.begin(), joined.end(), std::max(from, to), std::min(from, to));
    }
  }
  return joined;
}

// Whole cells, in order, so that each part gets about as many machines.
std::vector<std::vector<int>> StopSearch::split_machines(std::size_t parts) {
  std::vector<std::vector<int>> split(parts);
  std::vector<std::vector<int>> by_cell(model_->cell_max_down.size());
  const std::vector<int> joined = joined_cells();
  for (std::size_t m = 0; m < model_->machines.size(); ++m) {
    const int cell = joined[static_cast<std::size_t>(model_->machines[m].cell)];
    by_cell[static_cast<std::size_t>(cell)].push_back(static_cast<int>(m));
  }
  std::vector<int> part_of_crew(model_->crews.size(), -1);
  is_shared_.assign(model_->crews.size(), 0);
  std::size_t done = 0;
  for (const std::vector<int>& machines : by_cell) {
    const std::size_t part = done * parts / std::max<std::size_t>(1, model_->machines.size());
    done += machines.size();
    for (const int m : machines) {
      split[part].push_back(m);
      for (const TaskModel& task : model_->machines[static_cast<std::size_t>(m)].tasks) {
        int& owner = part_of_crew[static_cast<std::size_t>(task.crew)];
        if (owner < 0) owner = static_cast<int>(part);
        if (owner != static_cast<int>(part)) is_shared_[static_cast<std::size_t>(task.crew)] = 1;
      }
    }
  }
  return split;
}

void StopSearch::share_crews(std::size_t part) {
  for (std::size_t crew = 0; crew < is_shared_.size(); ++crew) {
    if (is_shared_[crew] == 0) continue;
    for (std::size_t slot = 0; slot < model_->slots(); ++slot) {
      const bool is_turn = (crew + slot + rounds_) % parts_.size() == part;
      const double free = model_->crews[crew].hours_max[slot] -
                          parts_[part]->draft.hours_used(static_cast<int>(crew), static_cast<int>(slot));
      const double each = free / static_cast<double>(parts_.size());
      const double mine = each >= hours_worth_halving ? each : is_turn ? free : 0;
      parts_[part]->draft.limit_crew(static_cast<int>(crew), static_cast<int>(slot), mine);
    }
  }
}

void StopSearch::round(std::size_t moves, Leniency leniency) {
  share_out(parts_.size(), [&](std::size_t number) {
    Part& part = *parts_[number];
    if (part.machines.empty()) return;
    share_crews(number);
    for (std::size_t i = 0; i < moves; ++i) {
      const int machine = part.moves.any_machine(part.random);
      for (int k = 0; k < moves_at_once; ++k) part.moves.try_one(machine, leniency, part.random);
      if (!part.visit_moves.has_visits()) continue;
      for (int k = 0; k < visit_moves_at_once; ++k) part.visit_moves.try_one(leniency, part.random);
    }
  });
  ++rounds_;
  bring_together();
  keep_best();
}

void StopSearch::bring_together() {
  const std::size_t parts = parts_.size();
  if (parts == 1) return parts_[0]->draft.recount();
  std::vector<Choice> chosen(parts);  // what each part did with its own machines
  for (std::size_t part = 0; part < parts; ++part) {
    for (const int m : parts_[part]->machines) {
      chosen[part].push_back(parts_[part]->draft.choice()[static_cast<std::size_t>(m)]);
    }
  }
  share_out(parts, [&](std::size_t part) {
    Draft& draft = parts_[part]->draft;
    for (std::size_t other = 0; other < parts; ++other) {
      if (other == part) continue;
      for (std::size_t i = 0; i < chosen[other].size(); ++i) draft.adopt(parts_[other]->machines[i], chosen[other][i]);
    }
    draft.recount();
  });
}

void StopSearch::keep_best() {
  if (draft().cost() >= best_cost_) return;
  best_ = draft().choice();
  best_cost_ = draft().cost();
}

double StopSearch::work() const {
  double sum = 0;
  for (const auto& part : parts_) sum += part->moves.work() + part->visit_moves.work();
  return sum;
}

}  // namespace hw::plan
