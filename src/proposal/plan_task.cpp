#include "src/proposal/plan_task.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace hw::proposal {
namespace {

using catalogue::EnergyState;

constexpr std::array<double, 5> fifths_chances{.1, .3, .5, .7, .9};
constexpr int never_days = 3650;                 // beyond what is forecast
constexpr double cycle_days_min = 0.5;           // also what is due several times a day is planned once a day at most
constexpr double min_gap_share = 0.4;            // of the middle cycle: nothing is done again before
constexpr int grace_days = 7;                    // so far the latest day lies ahead at least, even of what is overdue
constexpr double late_share_of_own_cost = 0.05;  // per day
constexpr double carry_share_at_rest = 0.25;     // of what opening a stop costs
constexpr double carry_share_isolated = 1.0 / 6;

plan::EnergyState plan_state(EnergyState energy) {
  switch (energy) {
    case EnergyState::in_production:
      return plan::EnergyState::running;
    case EnergyState::powered_at_rest:
      return plan::EnergyState::stopped;
    case EnergyState::isolated:
      return plan::EnergyState::locked;
  }
  return plan::EnergyState::locked;
}

plan::Fifths fifths_of(const due::DueDistribution& due, LocalDate today) {
  plan::Fifths days{};
  for (std::size_t i = 0; i < days.size(); ++i) {
    const auto on = due::quantile(due, fifths_chances[i]);
    days[i] = on ? std::min(never_days, *on - today) : never_days;
  }
  return days;
}

void add_due_days(plan::Task& made, const TaskAhead& task, LocalDate today) {
  made.age_days = std::max(0, task.age_days);
  made.first_due_days = fifths_of(task.due, today);
  for (double& day : made.first_due_days) day = std::max(day, cycle_days_min - made.age_days);
  made.cycle_days = fifths_of(task.next, today);
  for (double& length : made.cycle_days) length = std::max(length, cycle_days_min);
}

void add_costs(plan::Task& made, const ShopAhead& shop, const MachineAhead& machine, const TaskAhead& task) {
  const CostGrowth growth = task.joint ? task.joint->growth : growth_of(task.task);
  const double standing = standing_of(shop, machine);
  made.own_cost = made.labour_hours * shop.stopping.labour_per_hour;
  made.wear = growth.wear;
  made.late_cost_per_day = late_share_of_own_cost * made.own_cost + growth.late_day_standing_hours * standing;
  if (made.state == plan::EnergyState::running) return;
  const bool is_locked = made.state == plan::EnergyState::locked;
  const catalogue::StopSetUp& set_up = catalogue::set_up_of(shop.stopping, task.task.energy);
  const double share = is_locked ? carry_share_isolated : carry_share_at_rest;
  made.carry_over_cost = share * (set_up.cost + set_up.hours * standing);
}

// What guards people is done before it is due by the most careful of the five days and the tolerance; what does not, a
// whole cycle late at the most, and later by the longest time that the plant is closed.
void add_limits(plan::Task& made, int days, int closed_days_run) {
  const double middle = made.cycle_days[2];
  made.min_gap_days = std::max(1, static_cast<int>(std::lround(min_gap_share * middle)));
  made.first_earliest_day = std::max(0, made.min_gap_days - static_cast<int>(made.age_days));
  double latest = made.first_due_days[2] + middle + grace_days + closed_days_run;
  double gap = 2 * middle + grace_days + closed_days_run;
  if (made.safety_critical) {
    latest = made.first_due_days[0] + made.late_tolerance_days;
    gap = made.cycle_days[0] + made.late_tolerance_days;
  }
  made.max_gap_days = std::max(made.min_gap_days + 3, static_cast<int>(gap));
  const int day = std::max({static_cast<int>(latest), made.first_earliest_day + grace_days, grace_days});
  if (day < days) made.first_latest_day.emplace(day);
}

std::optional<LocalDate> parts_on(const ShopAhead& shop, const std::string& machine, const std::string& task) {
  std::optional<LocalDate> latest;
  for (const auto& parts : shop.stopping.parts_awaited) {
    if (parts.machine == machine && parts.task == task) latest = std::max(latest, std::optional{parts.on});
  }
  return latest;
}

void wait_for_parts(plan::Task& made, const ShopAhead& shop, const MachineAhead& machine, const TaskAhead& task) {
  std::optional<LocalDate> on = parts_on(shop, machine.key, made.id);
  for (const std::string& key : task.joint ? task.joint->tasks : std::vector<std::string>{}) {
    on = std::max(on, parts_on(shop, machine.key, key));
  }
  if (!on || *on - shop.today <= made.first_earliest_day) return;
  made.first_earliest_day = *on - shop.today;
  if (made.first_latest_day)
    *made.first_latest_day = std::max(*made.first_latest_day, made.first_earliest_day + grace_days);
}

// With the days around it on which nobody works.
int longest_run_closed(const ShopAhead& shop, int days) {
  int longest = 0, run = 0;
  bool has_holiday = false;
  for (int day = 0; day < days; ++day) {
    const LocalDate on = shop.today + day;
    const bool works = shop.calendar.works_on(on);
    run = works ? 0 : run + 1;
    has_holiday = !works && (has_holiday || shop.calendar.is_closed(on));
    if (has_holiday) longest = std::max(longest, run);
  }
  return longest;
}

double down_hours_of(const TaskAhead& task) {
  if (task.joint) return task.joint->standing_minutes / 60;
  return task.task.energy == EnergyState::in_production ? 0 : task.task.minutes / 60;
}

}  // namespace

double standing_of(const ShopAhead& shop, const MachineAhead& machine) {
  return machine.standing_per_hour.value_or(shop.stopping.standing_per_hour);
}

bool has_dates(const TaskAhead& task) {
  return due::quantile(task.due, fifths_chances[0]).has_value() && !task.next.empty();
}

plan::Task plan_task(const ShopAhead& shop, const MachineAhead& machine, const TaskAhead& task, int days) {
  plan::Task made;
  made.id = task.task.key;
  made.state = plan_state(task.task.energy);
  made.crew = word_of(task.task.skill);
  made.labour_hours = task.task.minutes / 60;
  made.down_hours = down_hours_of(task);
  made.safety_critical = task.joint ? task.joint->guards_people : guards_people(task.task);
  made.late_tolerance_days = std::max(0.0, task.tolerance_days);
  add_due_days(made, task, shop.today);
  add_costs(made, shop, machine, task);
  add_limits(made, days, longest_run_closed(shop, days));
  if (task.joint && !made.first_latest_day) made.first_latest_day.emplace(days - 1);
  wait_for_parts(made, shop, machine, task);
  if (!has_dates(task)) made.own_cost = made.late_cost_per_day = made.carry_over_cost = 0;
  return made;
}

}  // namespace hw::proposal
