#include "src/plan/visit_moves.h"

#include <algorithm>

namespace hw::plan {
namespace {

constexpr double chance_to_join = 0.5;         // that a visit that moves goes where another is
constexpr double chance_of_whole_stops = 0.5;  // that other work of its stops comes along
constexpr std::size_t joined_near = 3;         // of the visits by day, those so many before or after

std::size_t draw(std::size_t count, numerics::Random& random) {
  return static_cast<std::size_t>(random.whole_between(0, static_cast<int>(count) - 1));
}

}  // namespace

VisitMoves::VisitMoves(Draft& draft, const SlotWeights& weights, const std::vector<int>& machines)
    : draft_(draft),
      change_(draft),
      choice_(draft.model(), weights),
      opening_factor_(draft.model().slots(), 1),
      is_banned_(draft.model().slots(), 0) {
  std::vector<Tasks> by_visit(draft.model().visits.size());
  for (const int m : machines) {
    for (std::size_t t = 0; t < model_of(m).tasks.size(); ++t) {
      const int visit = model_of(m).tasks[t].visit;
      if (visit >= 0) by_visit[static_cast<std::size_t>(visit)].push_back({m, static_cast<int>(t)});
    }
  }
  for (Tasks& tasks : by_visit) {
    if (!tasks.empty()) visits_.push_back(std::move(tasks));
  }
}

void VisitMoves::find_slots(const Tasks& tasks, Slots& slots) const {
  slots.clear();
  for (const TaskAt at : tasks) {
    for (const int slot : draft_.slots_of(at)) change_.add_by_day(slot, slots);
  }
}

// The visit's tasks in that slot; or all that is done at rest in their machines' stops then.
void VisitMoves::touch_in(int slot, bool is_whole_stop) {
  int last = -1;
  for (const TaskAt at : *tasks_) {
    if (!is_done_in(draft_.slots_of(at), slot)) continue;
    change_.touch(at);
    if (!is_whole_stop || at.machine == last) continue;
    last = at.machine;
    for (std::size_t t = 0; t < model_of(last).tasks.size(); ++t) {
      const TaskAt beside{last, static_cast<int>(t)};
      const bool is_at_rest = task_of(beside).state != EnergyState::running;
      if (is_at_rest && is_done_in(draft_.slots_of(beside), slot)) change_.touch(beside);
    }
  }
}

// The machine's stops, the visits, and the slot that is tried.
Slots VisitMoves::offered_to(int machine, int to) const {
  Slots offered;
  change_.find_open(machine, offered);
  for (const int slot : slots_) change_.add_by_day(slot, offered);
  if (to >= 0) change_.add_by_day(to, offered);
  return offered;
}

// Each once more, as nothing is led any longer.
void VisitMoves::place_touched_anew() {
  for (std::size_t i = 0; i < change_.touched().size(); ++i) {
    const TaskAt at = change_.touched()[i];
    change_.place_among(at, offered_to(at.machine, -1), {});
  }
}

// The tasks touched go elsewhere, as if all were open in `to` (-1: nowhere in particular).
void VisitMoves::move_touched(int from, int to) {
  change_.take_touched();
  is_banned_[static_cast<std::size_t>(from)] = 1;
  if (to >= 0) opening_factor_[static_cast<std::size_t>(to)] = 0;
  const Lead lead{opening_factor_.data(), is_banned_.data()};
  for (std::size_t i = 0; i < change_.touched().size(); ++i) {
    const TaskAt at = change_.touched()[i];
    change_.place_among(at, offered_to(at.machine, to), lead);
  }
  is_banned_[static_cast<std::size_t>(from)] = 0;
  if (to >= 0) opening_factor_[static_cast<std::size_t>(to)] = 1;
  find_slots(*tasks_, slots_);
}

// Its tasks find other visits, or one of their own.
bool VisitMoves::try_close(numerics::Random& random) {
  const int from = slots_[draw(slots_.size(), random)];
  touch_in(from, random.chance(chance_of_whole_stops));
  move_touched(from, -1);
  return change_.keep_or_take_back();
}

// To another slot of that week or the next, or to another visit.
bool VisitMoves::try_shift(numerics::Random& random) {
  const std::size_t place = draw(slots_.size(), random);
  const int from = slots_[place];
  int to = from;
  if (random.chance(chance_to_join)) {
    const std::size_t first = place - std::min(place, joined_near);
    const std::size_t last = std::min(slots_.size() - 1, place + joined_near);
    to = slots_[first + draw(last - first + 1, random)];
  } else {
    to = choice_.near((*tasks_)[draw(tasks_->size(), random)].machine, from, random);
  }
  if (to == from) return false;
  touch_in(from, random.chance(chance_of_whole_stops));
  move_touched(from, to);
  place_touched_anew();
  return change_.keep_or_take_back();
}

// Those of a machine's tasks that gain by being done then, if they can pay for its stop together; gives back what is
// left of their gain. The price of the visit is not in it.
double VisitMoves::add_gaining(Tasks::const_iterator begin, Tasks::const_iterator end, int slot) {
  const MachineModel& machine = model_of(begin->machine);
  const auto s = static_cast<std::size_t>(slot);
  const std::size_t before = gaining_.size();
  EnergyState state = EnergyState::running;
  double left = 0;
  for (auto at = begin; at != end; ++at) {
    if (task_of(*at).state == EnergyState::running || machine.may_stop[s] == 0) continue;
    const double gain = change_.gain_with(*at, slot);
    if (gain <= 0) continue;
    left += gain;
    state = std::max(state, task_of(*at).state);
    gaining_.push_back(*at);
  }
  const StopUse& stop = draft_.stop(begin->machine, slot);
  if (state != EnergyState::running && !stop.is_open()) left -= machine.opening_cost(state, s);
  if (left + change_.allowance() > 0) return left;
  gaining_.resize(before);
  return 0;
}

// As if the crew and the stops were there already; but only where the tasks that gain by it may pay for it.
bool VisitMoves::try_open(numerics::Random& random) {
  const int slot = choice_.anywhere((*tasks_)[draw(tasks_->size(), random)].machine, random);
  const int visit = task_of(tasks_->front()).visit;
  double left = 0;
  gaining_.clear();
  for (auto begin = tasks_->begin(); begin != tasks_->end();) {
    const auto end = std::find_if(begin, tasks_->end(), [&](TaskAt at) { return at.machine != begin->machine; });
    left += add_gaining(begin, end, slot);
    begin = end;
  }
  if (!draft_.is_visited(visit, slot)) {
    const Model& model = draft_.model();
    left -= model.visit_cost(model.visits[static_cast<std::size_t>(visit)], static_cast<std::size_t>(slot));
  }
  if (gaining_.empty() || left + change_.allowance() < 0) return false;
  opening_factor_[static_cast<std::size_t>(slot)] = 0;
  for (const TaskAt at : gaining_) {
    change_.place_among(at, offered_to(at.machine, slot), {opening_factor_.data(), nullptr});
  }
  opening_factor_[static_cast<std::size_t>(slot)] = 1;
  find_slots(*tasks_, slots_);
  place_touched_anew();
  return change_.keep_or_take_back();
}

bool VisitMoves::try_one(Leniency leniency, numerics::Random& random) {
  change_.begin();
  tasks_ = &visits_[draw(visits_.size(), random)];
  find_slots(*tasks_, slots_);
  change_.allow(leniency, random);
  const double kind = random.uniform();
  if (slots_.empty() || kind > 0.75) return try_open(random);
  return kind < 0.3 ? try_close(random) : try_shift(random);
}

}  // namespace hw::plan
