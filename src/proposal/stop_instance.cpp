#include "src/proposal/stop_instance.h"

#include <algorithm>
#include <array>

#include "src/proposal/agreed_limits.h"
#include "src/proposal/crew_tables.h"
#include "src/proposal/outside_visits.h"
#include "src/proposal/plan_task.h"

namespace hw::proposal {
namespace {

plan::SetUps set_ups_of(const catalogue::Stopping& stopping) {
  return {{stopping.powered_at_rest.cost, stopping.powered_at_rest.hours},
          {stopping.isolated.cost, stopping.isolated.hours}};
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

enum class Undated { left_out, free };

plan::Machine plan_machine(const ShopAhead& shop, const MachineAhead& machine, Undated undated, StopInstance& into) {
  const int days = into.instance.days;
  plan::Machine made;
  made.id = machine.key;
  made.cell = machine.cell;
  if (shop.stopping.outside_visit) made.place = plant_place;
  const double standing = standing_of(shop, machine);
  made.loss_per_hour =
      into.slots.week([&](PlantSlot slot) { return into.slots.works(slot.day, slot.shift) ? standing : 0.0; });
  made.stop = set_ups_of(shop.stopping);
  made.blackouts = blackouts_of(shop, machine, days);
  for (const TaskAhead& task : machine.tasks) {
    if (has_dates(task) || task.is_held || undated == Undated::free) {
      made.tasks.push_back(plan_task(shop, machine, task, days));
    } else {
      into.left_out.push_back({machine.key, task.task.key});
    }
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

bool holds_a_held_task(const ShopAhead& shop, const AgreedStop& stop) {
  for (const MachineAhead& machine : shop.machines) {
    if (machine.key != stop.machine) continue;
    return std::any_of(machine.tasks.begin(), machine.tasks.end(), [&](const TaskAhead& task) {
      const auto is_it = [&](const AgreedTask& agreed) { return agreed.task == task.task.key; };
      return task.is_held && std::any_of(stop.tasks.begin(), stop.tasks.end(), is_it);
    });
  }
  return false;
}

// People may agree on a stop against a limit. No plan could keep it then: its tasks are left out.
void add_agreed(StopInstance& made, const ShopAhead& shop, const AgreedStop& stop, const AgreedLimits& limits,
                Moving moving) {
  const PlantSlot slot{made.slots.day_of(stop.on), made.slots.shift_of(stop.on, stop.shift).value_or(0)};
  const double share = shop.stopping.moving / static_cast<double>(std::max<std::size_t>(1, stop.tasks.size()));
  const bool may_move = moving == Moving::priced && !holds_a_held_task(shop, stop);
  for (const AgreedTask& agreed : stop.tasks) {
    plan::Task* task = find_task(made.instance, stop.machine, agreed.task);
    if (!task) continue;
    if (stop.on <= shop.today) {
      begin_anew(*task, made.instance.days);
    } else if (slot.day >= made.instance.days) {
      task->first_earliest_day = made.instance.days;
      task->first_latest_day.reset();
    } else if (limits.allows(stop, slot, *task)) {
      pin(*task, slot, may_move ? std::optional{share} : std::nullopt);
    } else {
      leave_out(made, stop, agreed.task);
    }
  }
}

}  // namespace

StopInstance make_instance(const ShopAhead& shop, int days, Moving moving) {
  StopInstance made = frame_of(shop, {1, days}, Undated::left_out);
  const AgreedLimits limits(shop, made.slots);
  for (const AgreedStop& stop : shop.agreed) add_agreed(made, shop, stop, limits, moving);
  return made;
}

StopInstance instance_to_try(const ShopAhead& shop, int days) { return frame_of(shop, {0, days}, Undated::free); }

}  // namespace hw::proposal
