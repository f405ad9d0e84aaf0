#include "src/plan/machine_moves.h"

#include <algorithm>
#include <cmath>

namespace hw::plan {
namespace {

constexpr int neighbours_settled = 6;  // further tasks that are placed anew after a change

std::size_t pick(std::size_t count, numerics::Random& random) {
  return static_cast<std::size_t>(random.whole_between(0, static_cast<int>(count) - 1));
}

bool has(const Slots& slots, int slot) { return std::find(slots.begin(), slots.end(), slot) != slots.end(); }

}  // namespace

MachineMoves::MachineMoves(Draft& draft)
    : draft_(draft), opening_factor_(draft.model().slots(), 1), is_banned_(draft.model().slots(), 0) {}

void MachineMoves::begin(int machine) {
  for (const int task : touched_) is_touched_[static_cast<std::size_t>(task)] = 0;
  touched_.clear();
  machine_ = machine;
  cost_before_ = draft_.cost();
  const std::size_t tasks = draft_.model().machines[static_cast<std::size_t>(machine)].tasks.size();
  if (is_touched_.size() < tasks) {
    is_touched_.resize(tasks, 0);
    slots_before_.resize(tasks);
  }
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

void MachineMoves::touch(int task) {
  const auto t = static_cast<std::size_t>(task);
  if (is_touched_[t] != 0) return;
  is_touched_[t] = 1;
  touched_.push_back(task);
  slots_before_[t] = draft_.slots_of({machine_, task});
}

void MachineMoves::touch_in(int slot) {
  const auto& tasks = draft_.choice()[static_cast<std::size_t>(machine_)];
  const auto& models = draft_.model().machines[static_cast<std::size_t>(machine_)].tasks;
  for (std::size_t t = 0; t < tasks.size(); ++t) {
    if (models[t].state != EnergyState::running && has(tasks[t], slot)) touch(static_cast<int>(t));
  }
}

void MachineMoves::place(int task, const Lead& lead) {
  touch(task);
  draft_.place({machine_, task}, lead);
  ++placings_;
}

void MachineMoves::place_touched(const Lead& lead) {
  for (const int task : touched_) draft_.take({machine_, task});
  for (std::size_t i = 0; i < touched_.size(); ++i) place(touched_[i], lead);
}

// After several tasks moved, they and a few others may lie better.
void MachineMoves::settle(numerics::Random& random) {
  const std::size_t tasks = draft_.choice()[static_cast<std::size_t>(machine_)].size();
  for (int i = 0; i < neighbours_settled; ++i) place(static_cast<int>(pick(tasks, random)), {});
}

bool MachineMoves::keep_or_take_back() {
  if (draft_.cost() <= cost_before_ + allowance_) return true;
  for (const int task : touched_) draft_.take({machine_, task});
  for (const int task : touched_) draft_.put({machine_, task}, slots_before_[static_cast<std::size_t>(task)]);
  return false;
}

bool MachineMoves::try_close(numerics::Random& random) {
  if (open_.empty()) return false;
  const int slot = open_[pick(open_.size(), random)];
  is_banned_[static_cast<std::size_t>(slot)] = 1;
  touch_in(slot);
  place_touched({nullptr, is_banned_.data()});
  is_banned_[static_cast<std::size_t>(slot)] = 0;
  settle(random);
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

bool MachineMoves::try_shift(numerics::Random& random) {
  if (open_.empty()) return false;
  const int from = open_[pick(open_.size(), random)];
  const int to = slot_near(from, random);
  if (to == from) return false;
  is_banned_[static_cast<std::size_t>(from)] = 1;
  opening_factor_[static_cast<std::size_t>(to)] = 0;
  touch_in(from);
  place_touched({opening_factor_.data(), is_banned_.data()});
  is_banned_[static_cast<std::size_t>(from)] = 0;
  opening_factor_[static_cast<std::size_t>(to)] = 1;
  settle(random);
  return keep_or_take_back();
}

// As if a stop were open there already: do enough tasks go there to pay for it?
bool MachineMoves::try_open(int machine, numerics::Random& random) {
  const auto slot = pick(draft_.model().slots(), random);
  if (draft_.stop(machine, static_cast<int>(slot)).is_open()) return false;
  opening_factor_[slot] = 0;
  const std::size_t tasks = draft_.choice()[static_cast<std::size_t>(machine)].size();
  for (std::size_t t = 0; t < tasks; ++t) place(static_cast<int>(t), {opening_factor_.data(), nullptr});
  opening_factor_[slot] = 1;
  if (!draft_.stop(machine, static_cast<int>(slot)).is_open()) return keep_or_take_back();
  touch_in(static_cast<int>(slot));
  settle(random);
  return keep_or_take_back();
}

// Some tasks are taken out together and placed one by one in another order, opening stops at a fraction of the price.
bool MachineMoves::try_anew(int machine, numerics::Random& random) {
  const std::size_t tasks = draft_.choice()[static_cast<std::size_t>(machine)].size();
  const int count = random.whole_between(2, 8);
  for (int i = 0; i < count; ++i) touch(static_cast<int>(pick(tasks, random)));
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
  if (kind < 0.25) return try_close(random);
  if (kind < 0.7) return try_shift(random);
  if (kind < 0.8) return try_open(machine, random);
  return try_anew(machine, random);
}

void MachineMoves::place_all(int machine) {
  begin(machine);
  const std::size_t tasks = draft_.choice()[static_cast<std::size_t>(machine)].size();
  for (std::size_t t = 0; t < tasks; ++t) place(static_cast<int>(t), {});
}

}  // namespace hw::plan
