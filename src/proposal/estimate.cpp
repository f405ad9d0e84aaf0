#include "src/proposal/estimate.h"

#include <algorithm>
#include <set>

#include "src/proposal/outside_visits.h"

namespace hw::proposal {
namespace {

// What an estimate is about, looked up once.
struct Trying {
  const ShopAhead& shop;
  const MachineAhead& machine;
  const PlantSlots& slots;
  PlantSlot slot;
  const StopTry& wanted;
  std::vector<const TaskAhead*> tasks;
};

Result<const MachineAhead*> find_machine(const ShopAhead& shop, const std::string& key) {
  for (const MachineAhead& machine : shop.machines) {
    if (machine.key == key) return &machine;
  }
  return refuse(ErrorCode::not_found, Saying{"no-machine", {{"machine", key.substr(0, 60)}}},
                "there is no machine \"{}\"", key.substr(0, 60));
}

Result<PlantSlot> find_slot(const ShopAhead& shop, const PlantSlots& slots, const StopTry& wanted) {
  const int day = slots.day_of(wanted.on);
  if (day < 0) {
    return refuse(ErrorCode::bad_input, Saying{"stop-past", {{"date", print(wanted.on)}}},
                  "on: {} is over; a stop is ahead", print(wanted.on));
  }
  if (day > estimate_days_max) {
    return refuse(ErrorCode::bad_input, "on: {} is more than {} days after {}", print(wanted.on), estimate_days_max,
                  print(shop.today));
  }
  const auto shift = slots.shift_of(wanted.on, wanted.shift);
  if (shift) return PlantSlot{day, *shift};
  return refuse(ErrorCode::bad_input, Saying{"no-shift", {{"shift", wanted.shift.substr(0, 60)}}},
                "shift: the plant has no shift \"{}\"", wanted.shift.substr(0, 60));
}

Result<std::vector<const TaskAhead*>> find_tasks(const MachineAhead& machine, const std::vector<std::string>& keys) {
  if (keys.empty()) return refuse(ErrorCode::bad_input, "tasks: name one at least");
  std::set<std::string_view> seen;
  std::vector<const TaskAhead*> found;
  for (const std::string& key : keys) {
    const auto there = std::find_if(machine.tasks.begin(), machine.tasks.end(),
                                    [&](const TaskAhead& one) { return one.task.key == key; });
    if (there == machine.tasks.end()) {
      return refuse(ErrorCode::bad_input, Saying{"no-task", {{"machine", machine.key}, {"task", key.substr(0, 60)}}},
                    "tasks: {} has no task \"{}\" that is planned", machine.key, key.substr(0, 60));
    }
    if (!seen.insert(key).second) return refuse(ErrorCode::bad_input, "tasks: \"{}\" is there twice", key);
    found.push_back(&*there);
  }
  return found;
}

bool is_in_slot(const AgreedStop& stop, const Trying& at) {
  return stop.on == at.wanted.on && at.slots.shift_of(stop.on, stop.shift) == at.slot.shift &&
         stop.id != at.wanted.stop;
}

// What other agreed stops have of the crews in that slot.
std::vector<plan::TakenHours> hours_taken(const Trying& at) {
  std::vector<plan::TakenHours> taken;
  for (const AgreedStop& stop : at.shop.agreed) {
    if (!is_in_slot(stop, at)) continue;
    for (const AgreedTask& task : stop.tasks) taken.push_back({std::string{word_of(task.skill)}, task.minutes / 60});
  }
  return taken;
}

// Those of other agreed stops in that slot for which the outside service comes.
std::vector<std::string> machines_visited(const Trying& at) {
  std::vector<std::string> visited;
  for (const AgreedStop& stop : at.shop.agreed) {
    if (!is_in_slot(stop, at) || !needs_visit(stop)) continue;
    if (std::find(visited.begin(), visited.end(), stop.machine) == visited.end()) visited.push_back(stop.machine);
  }
  return visited;
}

// With its way, once.
std::vector<plan::TakenHours> hours_taken_with_way(const Trying& at) {
  std::vector<plan::TakenHours> taken = hours_taken(at);
  const std::string outside{word_of(catalogue::Skill::outside_service)};
  if (!machines_visited(at).empty()) taken.push_back({outside, way_hours(at.shop)});
  return taken;
}

std::vector<std::string> crews_visiting(const Trying& at) {
  if (machines_visited(at).empty()) return {};
  return {std::string{word_of(catalogue::Skill::outside_service)}};
}

Result<plan::StopEstimate> figures_of(const Trying& at) {
  const StopInstance made = instance_to_try(at.shop, estimate_days_max + 1);
  HW_TRY(plan::check_instance(made.instance));
  HW_TAKE(figures, plan::estimate_stop(made.instance, {at.machine.key,
                                                       {at.slot.day, at.slot.shift},
                                                       at.wanted.tasks,
                                                       hours_taken_with_way(at),
                                                       crews_visiting(at)}));
  for (std::size_t i = 0; i < at.tasks.size(); ++i) {
    figures.tasks[i].chance_due_before = due::chance_by(at.tasks[i]->due, at.wanted.on - 1);
  }
  return std::move(figures);
}

void add_crew_troubles(StopEstimate& made) {
  for (const plan::CrewEstimate& crew : made.figures.crews) {
    if (crew.is_enough) continue;
    made.troubles.push_back(
        sentence({"crew-short", {{"skill", crew.crew}}, {{"wants", crew.wants_hours}, {"has", crew.has_hours}}},
                 "{} is wanted for {:.1f} h and has {:.1f} h left", crew.crew, crew.wants_hours, crew.has_hours));
  }
}

void add_parts(StopEstimate& made, const Trying& at) {
  for (const TaskAhead* task : at.tasks) {
    for (const catalogue::Part& part : task->task.parts) {
      const auto same = std::find_if(made.parts.begin(), made.parts.end(), [&](const catalogue::Part& one) {
        return one.name == part.name && one.unit == part.unit;
      });
      if (same == made.parts.end()) {
        made.parts.push_back(part);
      } else {
        same->quantity += part.quantity;
      }
    }
  }
}

void add_calendar_troubles(StopEstimate& made, const Trying& at) {
  for (const catalogue::ClosedDay& day : at.shop.calendar.closed) {
    if (day.on != at.wanted.on) continue;
    made.troubles.push_back(sentence({"plant-closed", {{"date", print(day.on)}, {"why", day.why}}},
                                     "the plant is closed on {}: {}", print(day.on), day.why));
  }
  for (const catalogue::Blackout& one : at.shop.stopping.blackouts) {
    const bool is_of_it = one.machine ? *one.machine == at.machine.key : *one.cell == at.machine.cell;
    if (!is_of_it || at.wanted.on < one.from || one.until < at.wanted.on) continue;
    made.troubles.push_back(sentence({"machine-held", {{"until", print(one.until)}, {"why", one.why}}},
                                     "the machine must not stand until {}: {}", print(one.until), one.why));
  }
  if (at.slots.begins_at(at.slot) > at.shop.now) return;
  made.troubles.push_back(sentence({"shift-begun"}, "that shift has begun already"));
}

void add_task_troubles(StopEstimate& made, const Trying& at) {
  for (const TaskAhead* task : at.tasks) {
    for (const catalogue::PartsAwaited& parts : at.shop.stopping.parts_awaited) {
      const bool is_of_it = parts.machine == at.machine.key && parts.task == task->task.key;
      if (!is_of_it || parts.on <= at.wanted.on) continue;
      made.troubles.push_back(sentence({"parts-late", {{"title", task->task.title}, {"date", print(parts.on)}}},
                                       "the parts for \"{}\" come on {}", task->task.title, print(parts.on)));
    }
    for (const AgreedStop& stop : at.shop.agreed) {
      if (stop.machine != at.machine.key || stop.id == at.wanted.stop) continue;
      const auto is_it = [&](const AgreedTask& one) { return one.task == task->task.key; };
      if (std::none_of(stop.tasks.begin(), stop.tasks.end(), is_it)) continue;
      made.troubles.push_back(
          sentence({"task-in-stop",
                    {{"title", task->task.title}, {"date", print(stop.on)}, {"shift", stop.shift}, {"stop", stop.id}}},
                   "\"{}\" is in the stop of {} already", task->task.title, print(stop.on)));
    }
  }
}

// Machines of its cell that other agreed stops have down in that slot.
int others_down(const Trying& at) {
  std::set<std::string_view> down;
  for (const AgreedStop& stop : at.shop.agreed) {
    if (!is_in_slot(stop, at) || stop.machine == at.machine.key) continue;
    if (stop.cell == at.machine.cell) down.insert(stop.machine);
  }
  return static_cast<int>(down.size());
}

void add_room_troubles(StopEstimate& made, const Trying& at) {
  if (made.figures.hours_over_shift > 1e-6) {
    const double room = at.slots.shifts()[static_cast<std::size_t>(at.slot.shift)].hours;
    made.troubles.push_back(sentence({"stop-too-long", {}, {{"hours", made.figures.standing_hours}, {"room", room}}},
                                     "it takes {:.1f} h, and the shift has {:.1f} h", made.figures.standing_hours,
                                     room));
  }
  for (const catalogue::Cell& cell : at.shop.cells) {
    if (cell.key != at.machine.cell || !cell.max_down || made.figures.state == plan::EnergyState::running) continue;
    const int down = others_down(at) + 1;
    if (down <= *cell.max_down) continue;
    made.troubles.push_back(
        sentence({"cell-full", {{"cell", cell.title}}, {{"down", double(down)}, {"most", double(*cell.max_down)}}},
                 "{} would have {} machines down, and may have {}", cell.title, down, *cell.max_down));
  }
}

}  // namespace

Result<StopEstimate> estimate_stop(const ShopAhead& shop, const StopTry& wanted) {
  HW_TAKE(machine, find_machine(shop, wanted.machine));
  const PlantSlots slots(shop.calendar, shop.today);
  HW_TAKE(slot, find_slot(shop, slots, wanted));
  HW_TAKE(tasks, find_tasks(*machine, wanted.tasks));
  const Trying at{shop, *machine, slots, slot, wanted, std::move(tasks)};
  StopEstimate made;
  HW_TAKE(figures, figures_of(at));
  made.figures = std::move(figures);
  made.visited_too = machines_visited(at);
  std::erase(made.visited_too, machine->key);
  add_parts(made, at);
  add_room_troubles(made, at);
  add_crew_troubles(made);
  add_calendar_troubles(made, at);
  add_task_troubles(made, at);
  return made;
}

}  // namespace hw::proposal
