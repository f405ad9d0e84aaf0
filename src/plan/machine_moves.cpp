#include "src/plan/machine_moves.h"

#include <algorithm>

namespace hw::plan {
namespace {

constexpr int neighbours_settled = 3;     // further tasks that are placed anew after a change
constexpr int neighbours_each_side = 32;  // machines in whose way one may be
constexpr double chance_of_swap = 0.3;    // that one displaced goes where the other came from

std::size_t pick(std::size_t count, numerics::Random& random) {
  return static_cast<std::size_t>(random.whole_between(0, static_cast<int>(count) - 1));
}

}  // namespace

MachineMoves::MachineMoves(Draft& draft, const SlotWeights& weights, std::vector<int> machines)
    : draft_(draft),
      change_(draft),
      choice_(draft.model(), weights),
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
  change_.begin();
  machine_ = machine;
  change_.find_open(machine, open_);
}

void MachineMoves::touch_in(int machine, int slot, EnergyState least) {
  const auto& tasks = draft_.choice()[static_cast<std::size_t>(machine)];
  const std::vector<TaskModel>& models = model_of(machine).tasks;
  for (std::size_t t = 0; t < tasks.size(); ++t) {
    if (models[t].state >= least && is_done_in(tasks[t], slot)) change_.touch({machine, static_cast<int>(t)});
  }
}

// After some tasks moved, a few others may lie better.
void MachineMoves::settle(int machine, const Slots& open, numerics::Random& random) {
  const std::vector<TaskModel>& tasks = model_of(machine).tasks;
  for (int i = 0; i < neighbours_settled; ++i) {
    const std::size_t t = pick(tasks.size(), random);
    if (tasks[t].state != EnergyState::running) change_.place_among({machine, static_cast<int>(t)}, open, {});
  }
}

// Its tasks find other stops, or a slot of their own; or only those that need it locked do.
bool MachineMoves::try_close(EnergyState least, numerics::Random& random) {
  if (open_.empty()) return false;
  const int slot = open_[pick(open_.size(), random)];
  if (draft_.stop(machine_, slot).state() < least) return false;
  is_banned_[static_cast<std::size_t>(slot)] = 1;
  touch_in(machine_, slot, least);
  change_.take_touched();
  for (std::size_t i = 0; i < change_.touched().size(); ++i)
    change_.place_among(change_.touched()[i], open_, {nullptr, is_banned_.data()});
  is_banned_[static_cast<std::size_t>(slot)] = 0;
  settle(machine_, open_, random);
  return change_.keep_or_take_back();
}

// Touched tasks from `begin` to `end` go out of one stop, as if the other were open already; others of the machine that
// gain by that come along.
void MachineMoves::shift_touched(std::size_t begin, std::size_t end, int from, int to, Slots& open) {
  if (begin == end) return;
  const int machine = change_.touched()[begin].machine;
  const Lead lead{opening_factor_.data(), is_banned_.data()};
  change_.add_by_day(to, open);
  is_banned_[static_cast<std::size_t>(from)] = 1;
  opening_factor_[static_cast<std::size_t>(to)] = 0;
  for (std::size_t i = begin; i < end; ++i) change_.place_among(change_.touched()[i], open, lead);
  is_banned_[static_cast<std::size_t>(from)] = 0;
  opening_factor_[static_cast<std::size_t>(to)] = 1;
  const StopUse& stop = draft_.stop(machine, to);
  if (stop.is_open()) join(machine, to, stop.state(), open);
}

// Tasks that gain by the stop in that slot, and need it no stricter than that, are placed anew.
void MachineMoves::join(int machine, int slot, EnergyState state, const Slots& open) {
  for (std::size_t t = 0; t < model_of(machine).tasks.size(); ++t) {
    const TaskAt at{machine, static_cast<int>(t)};
    if (task_of(at).state > state || change_.gain_with(at, slot) <= 0) continue;
    change_.place_among(at, open, {opening_factor_.data(), nullptr});
  }
}

bool MachineMoves::try_shift(numerics::Random& random) {
  if (open_.empty()) return false;
  const int from = open_[pick(open_.size(), random)];
  const int to = choice_.near(machine_, from, random);
  if (to == from) return false;
  touch_in(machine_, from, EnergyState::stopped);
  change_.take_touched();
  shift_touched(0, change_.touched().size(), from, to, open_);
  settle(machine_, open_, random);
  return change_.keep_or_take_back();
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

// A stop takes the people and the place of a neighbour's, which goes where that came from, or near.
bool MachineMoves::try_displace(numerics::Random& random) {
  if (open_.empty()) return false;
  const int from = open_[pick(open_.size(), random)];
  const int to = choice_.near(machine_, from, random);
  const int neighbour = to == from ? -1 : neighbour_stopped_in(to, random);
  if (neighbour < 0) return false;
  change_.find_open(neighbour, open_there_);
  touch_in(machine_, from, EnergyState::stopped);
  const std::size_t mine = change_.touched().size();
  touch_in(neighbour, to, EnergyState::stopped);
  const std::size_t all = change_.touched().size();
  change_.take_touched();
  shift_touched(0, mine, from, to, open_);
  const int away = random.chance(chance_of_swap) ? from : choice_.near(neighbour, to, random);
  shift_touched(mine, all, to, away == to ? from : away, open_there_);
  return change_.keep_or_take_back();
}

// What opening or locking the stop in that slot would save by its tasks, less its price: as each would gain alone.
MachineMoves::Worth MachineMoves::worth_of(int slot) {
  const MachineModel& machine = model_of(machine_);
  const auto s = static_cast<std::size_t>(slot);
  const double stopped_price = machine.opening_cost(EnergyState::stopped, s);
  const bool is_open = draft_.stop(machine_, slot).is_open();
  Worth worth{is_open ? -forbidden : -stopped_price,
              (is_open ? stopped_price : 0) - machine.opening_cost(EnergyState::locked, s)};
  for (std::size_t t = 0; t < machine.tasks.size(); ++t) {
    const double gain = change_.gain_with({machine_, static_cast<int>(t)}, slot);
    if (gain <= 0) continue;
    worth.as_locked += gain;
    if (machine.tasks[t].state == EnergyState::stopped) worth.as_stopped += gain;
  }
  return worth;
}

// As if a stop were open there already; but only where the tasks that gain by it may pay for it.
bool MachineMoves::try_open(numerics::Random& random) {
  const int slot = choice_.anywhere(machine_, random);
  if (draft_.stop(machine_, slot).locked > 0) return false;
  const Worth worth = worth_of(slot);
  if (std::max(worth.as_stopped, worth.as_locked) + change_.allowance() < 0) return false;
  change_.add_by_day(slot, open_);
  opening_factor_[static_cast<std::size_t>(slot)] = 0;
  const EnergyState state = worth.as_locked > worth.as_stopped ? EnergyState::locked : EnergyState::stopped;
  join(machine_, slot, state, open_);
  opening_factor_[static_cast<std::size_t>(slot)] = 1;
  settle(machine_, open_, random);
  return change_.keep_or_take_back();
}

// Some tasks are taken out together and placed one by one in another order, opening stops at a fraction of the price.
bool MachineMoves::try_anew(int machine, numerics::Random& random) {
  const std::size_t tasks = draft_.choice()[static_cast<std::size_t>(machine)].size();
  const int count = random.whole_between(2, 8);
  for (int i = 0; i < count; ++i) change_.touch({machine, static_cast<int>(pick(tasks, random))});
  std::fill(opening_factor_.begin(), opening_factor_.end(), static_cast<float>(random.uniform()));
  change_.take_touched();
  for (std::size_t i = 0; i < change_.touched().size(); ++i)
    change_.place(change_.touched()[i], {opening_factor_.data(), nullptr});
  std::fill(opening_factor_.begin(), opening_factor_.end(), 1.0F);
  for (std::size_t i = 0; i < change_.touched().size(); ++i) change_.place(change_.touched()[i], {});
  return change_.keep_or_take_back();
}

bool MachineMoves::try_one(int machine, Leniency leniency, numerics::Random& random) {
  begin(machine);
  if (draft_.choice()[static_cast<std::size_t>(machine)].empty()) return false;
  change_.allow(leniency, random);
  const double kind = random.uniform();
  if (kind < 0.11) return try_close(EnergyState::stopped, random);
  if (kind < 0.17) return try_close(EnergyState::locked, random);
  if (kind < 0.28) return try_displace(random);
  if (kind < 0.67) return try_shift(random);
  if (kind < 0.95) return try_open(random);
  return try_anew(machine, random);
}

void MachineMoves::place_all(int machine) {
  begin(machine);
  const std::size_t tasks = draft_.choice()[static_cast<std::size_t>(machine)].size();
  for (std::size_t t = 0; t < tasks; ++t) change_.place({machine, static_cast<int>(t)}, {});
}

}  // namespace hw::plan
