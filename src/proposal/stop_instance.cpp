#include "src/proposal/stop_instance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "src/proposal/agreed_limits.h"
#include "src/proposal/cost_growth.h"
#include "src/proposal/crew_tables.h"

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

plan::SetUps set_ups_of(const catalogue::Stopping& stopping) {
  return {{stopping.powered_at_rest.cost, stopping.powered_at_rest.hours},
          {stopping.isolated.cost, stopping.isolated.hours}};
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

void add_costs(plan::Task& made, const ShopAhead& shop, const MachineAhead& machine, const catalogue::Task& task) {
  const CostGrowth growth = growth_of(task.work);
  const double standing = standing_of(shop, machine);
  made.own_cost = made.labour_hours * shop.stopping.labour_per_hour;
  made.wear = growth.wear;
  made.late_cost_per_day = late_share_of_own_cost * made.own_cost + growth.late_day_standing_hours * standing;
  if (made.state == plan::EnergyState::running) return;
  const bool is_locked = made.state == plan::EnergyState::locked;
  const catalogue::StopSetUp& set_up = is_locked ? shop.stopping.isolated : shop.stopping.powered_at_rest;
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
  for (const auto& parts : shop.stopping.parts_awaited) {
    if (parts.machine == machine && parts.task == task) return parts.on;
  }
  return std::nullopt;
}

void wait_for_parts(plan::Task& made, const ShopAhead& shop, const std::string& machine) {
  const auto on = parts_on(shop, machine, made.id);
  if (!on || *on - shop.today <= made.first_earliest_day) return;
  made.first_earliest_day = *on - shop.today;
  if (made.first_latest_day)
    *made.first_latest_day = std::max(*made.first_latest_day, made.first_earliest_day + grace_days);
}

std::vector<std::array<int, 2>> blackouts_of(const ShopAhead& shop, const MachineAhead& machine, int days) {
  std::vector<std::array<int, 2>> spans;
  for (const catalogue::Blackout& one : shop.stopping.blackouts) {
    if (one.machine ? *one.machine != machine.key : *one.cell != machine.cell) continue;
    const int first = one.from - shop.today;
    const int last = one.until - shop.today;
    if (last >= 0 && first < days) spans.push_back({std::max(0, first), std::min(days - 1, last)});
  }
  return spans;
}

bool is_planned(const TaskAhead& task) {
  return due::quantile(task.due, fifths_chances[0]).has_value() && !task.next.empty();
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

plan::Task plan_task(const ShopAhead& shop, const MachineAhead& machine, const TaskAhead& task, int days) {
  plan::Task made;
  made.id = task.task.key;
  made.state = plan_state(task.task.energy);
  made.crew = word_of(task.task.skill);
  made.labour_hours = task.task.minutes / 60;
  made.down_hours = made.state == plan::EnergyState::running ? 0 : made.labour_hours;
  made.safety_critical = guards_people(task.task);
  made.late_tolerance_days = std::max(0.0, task.tolerance_days);
  add_due_days(made, task, shop.today);
  add_costs(made, shop, machine, task.task);
  add_limits(made, days, longest_run_closed(shop, days));
  wait_for_parts(made, shop, machine.key);
  return made;
}

enum class Undated { left_out, free };

plan::Machine plan_machine(const ShopAhead& shop, const MachineAhead& machine, Undated undated, StopInstance& into) {
  const int days = into.instance.days;
  plan::Machine made;
  made.id = machine.key;
  made.cell = machine.cell;
  const double standing = standing_of(shop, machine);
  made.loss_per_hour =
      into.slots.week([&](PlantSlot slot) { return into.slots.works(slot.day, slot.shift) ? standing : 0.0; });
  made.stop = set_ups_of(shop.stopping);
  made.blackouts = blackouts_of(shop, machine, days);
  for (const TaskAhead& task : machine.tasks) {
    if (!is_planned(task) && undated == Undated::left_out) {
      into.left_out.push_back({machine.key, task.task.key});
      continue;
    }
    made.tasks.push_back(plan_task(shop, machine, task, days));
    plan::Task& planned = made.tasks.back();
    if (!is_planned(task)) planned.own_cost = planned.late_cost_per_day = planned.carry_over_cost = 0;
  }
  return made;
}

std::vector<plan::Cell> cells_of(const ShopAhead& shop, const PlantSlots& slots) {
  std::vector<plan::Cell> cells;
  for (const catalogue::Cell& cell : shop.cells) {
    const int all = static_cast<int>(shop.machines.size());
    cells.push_back({cell.key, slots.week([&](PlantSlot) { return cell.max_down.value_or(all); })});
  }
  return cells;
}

std::vector<int> closed_days_of(const ShopAhead& shop, int days) {
  std::vector<int> closed;
  for (const catalogue::ClosedDay& day : shop.calendar.closed) {
    const int at = day.on - shop.today;
    if (at >= 0 && at < days) closed.push_back(at);
  }
  return closed;
}

plan::Task* find_task(plan::Instance& instance, const std::string& machine, const std::string& task) {
  for (plan::Machine& one : instance.machines) {
    if (one.id != machine) continue;
    for (plan::Task& there : one.tasks) {
      if (there.id == task) return &there;
    }
  }
  return nullptr;
}

// The next execution is in the agreed stop, whatever the other limits of its days say.
void pin(plan::Task& task, PlantSlot slot, std::optional<double> move_cost) {
  task.first_earliest_day = std::min(task.first_earliest_day, slot.day);
  if (task.first_latest_day) *task.first_latest_day = std::max(*task.first_latest_day, slot.day);
  task.agreed = plan::AgreedSlot{slot.day, slot.shift, {}};
  if (move_cost) task.agreed->move_cost.emplace(*move_cost);
}

// As if it were done today.
void begin_anew(plan::Task& task, int days) {
  task.age_days = 0;
  task.first_due_days = task.cycle_days;
  task.first_earliest_day = task.min_gap_days;
  task.first_latest_day.reset();
  if (task.max_gap_days < days) task.first_latest_day.emplace(task.max_gap_days);
}

StopInstance frame_of(const ShopAhead& shop, const DaySpan& span, Undated undated) {
  StopInstance made{{}, PlantSlots(shop.calendar, shop.today), {}};
  plan::Instance& instance = made.instance;
  instance.format = "hourwright-stops-1";
  instance.name = fmt::format("shop on {}", print(shop.today));
  instance.days = span.days;
  instance.shifts = made.slots.shifts();
  instance.crews = crews_of(shop, made.slots, span);
  instance.cells = cells_of(shop, made.slots);
  instance.closed_days = closed_days_of(shop, span.days);
  for (const MachineAhead& machine : shop.machines) {
    instance.machines.push_back(plan_machine(shop, machine, undated, made));
  }
  return made;
}

void leave_out(StopInstance& made, const AgreedStop& stop, const std::string& task) {
  for (plan::Machine& machine : made.instance.machines) {
    if (machine.id != stop.machine) continue;
    std::erase_if(machine.tasks, [&](const plan::Task& one) { return one.id == task; });
  }
  made.left_out.push_back({stop.machine, task});
}

// People may agree on a stop against a limit. No plan could keep it then: its tasks are left out.
void add_agreed(StopInstance& made, const ShopAhead& shop, const AgreedStop& stop, const AgreedLimits& limits,
                Moving moving) {
  const PlantSlot slot{made.slots.day_of(stop.on), made.slots.shift_of(stop.on, stop.shift).value_or(0)};
  const double share = shop.stopping.moving / static_cast<double>(std::max<std::size_t>(1, stop.tasks.size()));
  for (const AgreedTask& agreed : stop.tasks) {
    plan::Task* task = find_task(made.instance, stop.machine, agreed.task);
    if (!task) continue;
    if (stop.on <= shop.today) {
      begin_anew(*task, made.instance.days);
    } else if (slot.day >= made.instance.days) {
      task->first_earliest_day = made.instance.days;
      task->first_latest_day.reset();
    } else if (limits.allows(stop, slot, *task)) {
      pin(*task, slot, moving == Moving::priced ? std::optional{share} : std::nullopt);
    } else {
      leave_out(made, stop, agreed.task);
    }
  }
}

}  // namespace

double standing_of(const ShopAhead& shop, const MachineAhead& machine) {
  return machine.standing_per_hour.value_or(shop.stopping.standing_per_hour);
}

StopInstance make_instance(const ShopAhead& shop, int days, Moving moving) {
  StopInstance made = frame_of(shop, {1, days}, Undated::left_out);
  const AgreedLimits limits(shop, made.slots);
  for (const AgreedStop& stop : shop.agreed) add_agreed(made, shop, stop, limits, moving);
  return made;
}

StopInstance instance_to_try(const ShopAhead& shop, int days) { return frame_of(shop, {0, days}, Undated::free); }

}  // namespace hw::proposal
