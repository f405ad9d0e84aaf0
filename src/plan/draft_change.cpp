#include "src/plan/draft_change.h"

#include <algorithm>
#include <cmath>

namespace hw::plan {
namespace {

constexpr double seconds_per_placing = 5e-6;        // the work of one, in any slots
constexpr double seconds_per_short_placing = 8e-7;  // among those of open stops
constexpr double seconds_per_gain = 6e-8;

}  // namespace

bool is_done_in(const Slots& slots, int slot) { return std::find(slots.begin(), slots.end(), slot) != slots.end(); }

void DraftChange::begin() {
  touched_.clear();
  cost_before_ = draft_.cost();
}

void DraftChange::allow(Leniency leniency, numerics::Random& random) {
  allowance_ = leniency.mean > 0 ? -leniency.mean * std::log(random.uniform()) : -1e-9;
}

void DraftChange::touch(TaskAt at) {
  if (std::find(touched_.begin(), touched_.end(), at) != touched_.end()) return;
  if (slots_before_.size() <= touched_.size()) slots_before_.emplace_back();
  slots_before_[touched_.size()] = draft_.slots_of(at);
  touched_.push_back(at);
}

void DraftChange::take_touched() {
  for (const TaskAt at : touched_) draft_.take(at);
}

void DraftChange::place(TaskAt at, const Lead& lead) {
  touch(at);
  draft_.place(at, lead);
  work_ += seconds_per_placing;
}

void DraftChange::place_among(TaskAt at, const Slots& offered, const Lead& lead) {
  touch(at);
  work_ += seconds_per_short_placing;
  if (!draft_.place_among(at, offered, lead)) place(at, lead);
}

double DraftChange::gain_with(TaskAt at, int slot) {
  work_ += seconds_per_gain;
  const bool is_asked = task_of(at).state != EnergyState::running && !is_done_in(draft_.slots_of(at), slot);
  return is_asked ? draft_.gain_with(at, slot) : 0;
}

bool DraftChange::keep_or_take_back() {
  if (draft_.cost() <= cost_before_ + allowance_) return true;
  take_touched();
  for (std::size_t i = 0; i < touched_.size(); ++i) draft_.put(touched_[i], slots_before_[i]);
  return false;
}

void DraftChange::find_open(int machine, Slots& open) const {
  open.clear();
  const auto m = static_cast<std::size_t>(machine);
  const std::vector<TaskModel>& tasks = draft_.model().machines[m].tasks;
  const std::vector<Slots>& slots = draft_.choice()[m];
  for (std::size_t t = 0; t < slots.size(); ++t) {
    if (tasks[t].state == EnergyState::running) continue;
    for (const int slot : slots[t]) add_by_day(slot, open);
  }
}

void DraftChange::add_by_day(int slot, Slots& slots) const {
  const auto days = static_cast<int>(draft_.model().days);
  const auto is_before = [days](int a, int b) { return a % days != b % days ? a % days < b % days : a < b; };
  const auto place = std::lower_bound(slots.begin(), slots.end(), slot, is_before);
  if (place == slots.end() || *place != slot) slots.insert(place, slot);
}

}  // namespace hw::plan
