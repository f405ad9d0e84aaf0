#include <algorithm>

#include "src/plan/draft.h"

namespace hw::plan {

double Draft::price_led(TaskAt at, std::size_t slot, const Lead& lead) const {
  if (lead.is_banned != nullptr && lead.is_banned[slot] != 0) return forbidden;
  const double factor = lead.opening_factor == nullptr ? 1 : static_cast<double>(lead.opening_factor[slot]);
  const StopUse& use = stops_[index(at.machine)][slot];
  const double stop = stop_price(model_->machines[index(at.machine)], task(at), use, slot, factor);
  return is_allowed(stop) ? stop + labour_price(task(at), slot, factor) : forbidden;
}

void Draft::offer_days(TaskAt at, const Lead& lead) {
  const MachineModel& machine = model_->machines[index(at.machine)];
  const TaskModel& what = task(at);
  const std::vector<StopUse>& stops = stops_[index(at.machine)];
  std::fill(day_price_.begin(), day_price_.end(), forbidden);
  for (std::size_t shift = 0; shift < model_->shifts; ++shift) {
    for (std::size_t day = 0; day < model_->days; ++day) {
      const std::size_t slot = shift * model_->days + day;
      if (lead.is_banned != nullptr && lead.is_banned[slot] != 0) continue;
      const double factor = lead.opening_factor == nullptr ? 1 : static_cast<double>(lead.opening_factor[slot]);
      double price = stop_price(machine, what, stops[slot], slot, factor);
      if (price >= day_price_[day]) continue;
      price += labour_price(what, slot, factor);
      if (price >= day_price_[day]) continue;
      day_price_[day] = price;
      day_slot_[day] = static_cast<int>(slot);
    }
  }
}

// Adds to the table what beginning on the agreed day costs more than another execution on it. Gives back the slot in
// which to begin then; -1 where nothing is agreed.
int Draft::offer_agreed(TaskAt at, const Lead& lead, RouteTable<double>& table) {
  const TaskModel& what = task(at);
  if (what.agreed_slot < 0) return -1;
  const auto slot = index(what.agreed_slot);
  const std::size_t day = model_->day_of(slot);
  const double price = price_led(at, slot, lead);
  first_cost_ = what.first_cost;
  first_cost_[day] += what.first_extra(price, day_price_[day]);
  table.first = first_cost_.data();
  return price <= day_price_[day] + what.move_cost ? what.agreed_slot : day_slot_[day];
}

bool Draft::place(TaskAt at, const Lead& lead) {
  take(at);
  offer_days(at, lead);
  RouteTable<double> table = task(at).table();
  const int begin = offer_agreed(at, lead, table);
  const double cost = cheapest_route(table, day_price_.data(), room_, days_);
  if (!is_allowed(cost)) return false;
  chosen_.clear();
  for (const int day : days_) chosen_.push_back(day_slot_[index(day)]);
  if (begin >= 0 && !days_.empty() && days_.front() == begin % table.days) chosen_.front() = begin;
  put(at, chosen_);
  return true;
}

bool Draft::place_among(TaskAt at, const Slots& offered, const Lead& lead) {
  take(at);
  const TaskModel& what = task(at);
  few_.clear();
  for (const int slot : offered) {
    const double price = price_led(at, index(slot), lead);
    if (!is_allowed(price)) continue;
    const int day = static_cast<int>(model_->day_of(index(slot)));
    few_.push_back({day, slot, what.first_cost[index(day)] + what.shift_cost(slot), price});
  }
  const double cost = cheapest_route_among(what.table(), few_, chosen_);
  if (!is_allowed(cost)) return false;
  put(at, chosen_);
  return true;
}

// The cost of the cycle between two executions; a slot of -1 is the horizon's begin or end.
double Draft::link_cost(const TaskModel& what, int from, int to) const {
  const auto day = [&](int slot) { return model_->day_of(index(slot)); };
  if (from < 0) return to < 0 ? what.never_cost : what.first_cost[day(to)] + what.shift_cost(to);
  if (to < 0) return what.last_cost[day(from)];
  const std::size_t gap = day(to) - day(from);
  const bool is_fitting = day(to) > day(from) && gap >= index(what.gap_min) && gap < what.gap_cost.size();
  return is_fitting ? what.gap_cost[gap] : forbidden;
}

double Draft::gain_with(TaskAt at, int slot) const {
  const TaskModel& what = task(at);
  const Slots& slots = slots_of(at);
  const MachineModel& machine = model_->machines[index(at.machine)];
  const auto by_day = [&](int left, int right) { return model_->day_of(index(left)) < model_->day_of(index(right)); };
  const auto after = std::lower_bound(slots.begin(), slots.end(), slot, by_day) - slots.begin();
  const auto there = [&](std::ptrdiff_t i) { return i < 0 || i >= std::ssize(slots) ? -1 : slots[index(i)]; };
  const auto own = [&](int done) {
    return what.labour_hours * model_->crews[index(what.crew)].premium_per_hour[index(done)] +
           what.down_hours * machine.loss_per_hour[index(done)];
  };
  const int last = there(after - 1);
  const int next = there(after);
  const double now = link_cost(what, last, next);
  const double from_last = link_cost(what, last, slot);
  const double to_next = link_cost(what, slot, next);
  double gain = now - from_last - to_next;
  if (last >= 0) {
    const int former = there(after - 2);
    gain = std::max(gain, link_cost(what, former, last) + own(last) + now - link_cost(what, former, slot) - to_next);
  }
  if (next >= 0) {
    const int later = there(after + 1);
    gain = std::max(gain, now + own(next) + link_cost(what, next, later) - from_last - link_cost(what, slot, later));
  }
  return gain - own(slot);
}

}  // namespace hw::plan
