#include "src/plan/machine_moves.h"

#include <algorithm>
#include <cmath>

namespace hw::plan {
namespace {

constexpr int neighbours_settled = 6;     // further tasks that are placed anew after a change
constexpr int neighbours_each_side = 32;  // machines in whose way one may be

std::size_t pick(std::size_t count, numerics::Random& random) {
  return static_cast<std::size_t>(random.whole_between(0, static_cast<int>(count) - 1));
}

bool has(const Slots& slots, int slot) { return std::find(slots.begin(), slots.end(), slot) != slots.end(); }

}  // namespace

MachineMoves::MachineMoves(Draft& draft, const SlotWeights& weights, std::vector<int> machines)
    : draft_(draft),
      weights_(weights),
      machines_(std::move(machines)),
      place_of_(draft.model().machines.size()),
      opening_factor_(draft.model().slots(), 1),
      is_banned_(draft.model().slots(), 0) {
  for (std::size_t i = 0; i < machines_.size(); ++i) {
    place_of_[static_cast<std::size_t>(machines_[i])] = static_cast<int>(i);
  }
}

int MachineMoves::any_machine(numerics::Random& random) const { return machines_[pick(machines_.size(), random)]; }

void MachineMoves::begin(int machine) {
  touched_.clear();
  machine_ = machine;
  cost_before_ = draft_.cost();
  find_open(machine);
}

void MachineMoves::find_open(int machine) {
  open_.clear();
  for (const Slots& slots : draft_.choice()[static_cast<std::size_t>(machine)]) {
    for (const int slot : slots) {
      if (draft_.stop(machine, slot).is_open()) open_.push_back(slot);
    }
  }
  std::sort(open_.begin(), open_.end());
  open_.erase(std::unique(open_.begin(), open_.end()), open_.end());
}

void MachineMoves::touch(TaskAt at) {
  if (std::find(touched_.begin(), touched_.end(), at) != touched_.end()) return;
  if (slots_before_.size() <= touched_.size()) slots_before_.emplace_back();
  slots_before_[touched_.size()] = draft_.slots_of(at);
  touched_.push_back(at);
}

void MachineMoves::touch_in(int machine, int slot) {
  const auto& tasks = draft_.choice()[static_cast<std::size_t>(machine)];
  const auto& models = draft_.model().machines[static_cast<std::size_t>(machine)].tasks;
  for (std::size_t t = 0; t < tasks.size(); ++t) {
    if (models[t].state != EnergyState::running && has(tasks[t], slot)) touch({machine, static_cast<int>(t)});
  }
}

void MachineMoves::place(TaskAt at, const Lead& lead) {
  touch(at);
  draft_.place(at, lead);
  ++placings_;
}

void MachineMoves::take_touched() {
  for (const TaskAt at : touched_) draft_.take(at);
}

void MachineMoves::place_touched(const Lead& lead) {
  take_touched();
  for (std::size_t i = 0; i < touched_.size(); ++i) place(touched_[i], lead);
}

// After several tasks moved, they and a few others may lie better.
void MachineMoves::settle(int machine, numerics::Random& random) {
  const std::size_t tasks = draft_.choice()[static_cast<std::size_t>(machine)].size();
  for (int i = 0; i < neighbours_settled; ++i) place({machine, static_cast<int>(pick(tasks, random))}, {});
}

bool MachineMoves::keep_or_take_back() {
  if (draft_.cost() <= cost_before_ + allowance_) return true;
  take_touched();
  for (std::size_t i = 0; i < touched_.size(); ++i) draft_.put(touched_[i], slots_before_[i]);
  return false;
}

bool MachineMoves::try_close(numerics::Random& random) {
  if (open_.empty()) return false;
  const int slot = open_[pick(open_.size(), random)];
  is_banned_[static_cast<std::size_t>(slot)] = 1;
  touch_in(machine_, slot);
  place_touched({nullptr, is_banned_.data()});
  is_banned_[static_cast<std::size_t>(slot)] = 0;
  settle(machine_, random);
  return keep_or_take_back();
}

// Another shift of the day, or a day up to a week away.
int MachineMoves::slot_near(int slot, numerics::Random& random) const {
  const auto days = static_cast<int>(draft_.model().days);
  const auto shifts = static_cast<int>(draft_.model().shifts);
  const int away = random.chance(0.25) ? 0 : random.whole_between(1, 7) * (random.chance(0.5) ? 1 : -1);
  const int day = std::clamp(slot % days + away, 0, days - 1);
  return random.whole_between(0, shifts - 1) * days + day;
}

// The first `count` touched tasks go out of one stop, as if another were open already.
void MachineMoves::shift_touched(int from, int to, std::size_t count) {
  is_banned_[static_cast<std::size_t>(from)] = 1;
  opening_factor_[static_cast<std::size_t>(to)] = 0;
  for (std::size_t i = 0; i < count; ++i) place(touched_[i], {opening_factor_.data(), is_banned_.data()});
  is_banned_[static_cast<std::size_t>(from)] = 0;
  opening_factor_[static_cast<std::size_t>(to)] = 1;
}

bool MachineMoves::try_shift(numerics::Random& random) {
  if (open_.empty()) return false;
  const int from = open_[pick(open_.size(), random)];
  const int to = slot_near(from, random);
  if (to == from) return false;
  touch_in(machine_, from);
  take_touched();
  shift_touched(from, to, touched_.size());
  settle(machine_, random);
  return keep_or_take_back();
}

// Another machine, not far away, that stands then; -1: none.
int MachineMoves::neighbour_stopped_in(int slot, numerics::Random& random) const {
  const int here = place_of_[static_cast<std::size_t>(machine_)];
  const int begin = std::max(0, here - neighbours_each_side);
  const int count = std::min(static_cast<int>(machines_.size()), here + neighbours_each_side + 1) - begin;
  const int start = random.whole_between(0, count - 1);
  for (int i = 0; i < count; ++i) {
    const int machine = machines_[static_cast<std::size_t>(begin + (start + i) % count)];
    if (machine != machine_ && draft_.stop(machine, slot).is_open()) return machine;
  }
  return -1;
}

// A stop takes the people and the place of a neighbour's, which finds others.
bool MachineMoves::try_displace(numerics::Random& random) {
  if (open_.empty()) return false;
  const int from = open_[pick(open_.size(), random)];
  const int to = slot_near(from, random);
  const int neighbour = to == from ? -1 : neighbour_stopped_in(to, random);
  if (neighbour < 0) return false;
  touch_in(machine_, from);
  const std::size_t mine = touched_.size();
  touch_in(neighbour, to);
  take_touched();
  shift_touched(from, to, mine);
  for (std::size_t i = mine; i < touched_.size(); ++i) place(touched_[i], {});
  settle(machine_, random);
  settle(neighbour, random);
  return keep_or_take_back();
}

int MachineMoves::slot_worth_trying(numerics::Random& random) const {
  const std::vector<float>& sums = weights_[static_cast<std::size_t>(machine_)];
  const float at = static_cast<float>(random.uniform()) * sums.back();
  return static_cast<int>(std::upper_bound(sums.begin(), sums.end() - 1, at) - sums.begin());
}

// As if a stop were open there already: do enough tasks go there to pay for it?
bool MachineMoves::try_open(int machine, numerics::Random& random) {
  const int slot = slot_worth_trying(random);
  if (draft_.stop(machine, slot).is_open()) return false;
  opening_factor_[static_cast<std::size_t>(slot)] = 0;
  const std::size_t tasks = draft_.choice()[static_cast<std::size_t>(machine)].size();
  for (std::size_t t = 0; t < tasks; ++t) place({machine, static_cast<int>(t)}, {opening_factor_.data(), nullptr});
  opening_factor_[static_cast<std::size_t>(slot)] = 1;
  if (draft_.stop(machine, slot).is_open()) settle(machine, random);
  return keep_or_take_back();
}

// Some tasks are taken out together and placed one by one in another order, opening stops at a fraction of the price.
bool MachineMoves::try_anew(int machine, numerics::Random& random) {
  const std::size_t tasks = draft_.choice()[static_cast<std::size_t>(machine)].size();
  const int count = random.whole_between(2, 8);
  for (int i = 0; i < count; ++i) touch({machine, static_cast<int>(pick(tasks, random))});
  std::fill(opening_factor_.begin(), opening_factor_.end(), static_cast<float>(random.uniform()));
  place_touched({opening_factor_.data(), nullptr});
  std::fill(opening_factor_.begin(), opening_factor_.end(), 1.0F);
  for (std::size_t i = 0; i < touched_.size(); ++i) place(touched_[i], {});
  return keep_or_take_back();
}

bool MachineMoves::try_one(int machine, Leniency leniency, numerics::Random& random) {
  begin(machine);
  if (draft_.choice()[static_cast<std::size_t>(machine)].empty()) return false;
  allowance_ = leniency.mean > 0 ? -leniency.mean * std::log(random.uniform()) : -1e-9;
  const double kind = random.uniform();

  if (kind < 0.2) return try_close(random);
  if (kind < 0.45) return try_displace(random);
  if (kind < 0.7) return try_shift(random);
  if (kind < 0.8) return try_open(machine, random);
  return try_anew(machine, random);
}

void MachineMoves::place_all(int machine) {
  begin(machine);
  const std::size_t tasks = draft_.choice()[static_cast<std::size_t>(machine)].size();
  for (std::size_t t = 0; t < tasks; ++t) place({machine, static_cast<int>(t)}, {});
}

}  // namespace hw::plan
