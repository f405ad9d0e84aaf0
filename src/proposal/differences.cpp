#include "src/proposal/differences.h"

#include <algorithm>
#include <set>
#include <tuple>

#include "src/proposal/outside_visits.h"
#include "src/proposal/reasons.h"

namespace hw::proposal {
namespace {

// Where tasks of one machine have their next executions together.
struct Group {
  std::string machine;
  PlantSlot slot;
  std::vector<std::string> tasks;
};

using GroupKey = std::pair<std::string, PlantSlot>;

class Comparison {
 public:
  Comparison(const ShopAhead& shop, const StopInstance& made, const PlanPair& plans)
      : shop_(shop),
        made_(made),
        plan_then_(plans.then),
        now_(turns_of_tasks(first_turns(made.instance, plans.now), made.services)),
        then_(turns_of_tasks(first_turns(made.instance, plans.then), made.services)) {
    const std::set<TaskName> waiting = tasks_that_wait();
    for (const auto& [name, turn] : then_) {
      if (!turn.slot || waiting.count(name)) continue;
      Group& group = groups_[{name.machine, *turn.slot}];
      group.machine = name.machine;
      group.slot = *turn.slot;
      group.tasks.push_back(name.task);
    }
  }

  std::vector<Difference> compare() && {
    for (const AgreedStop& stop : shop_.agreed) compare_agreed(stop);
    for (const auto& [key, group] : groups_) {
      if (!taken_.count(key)) add(new_stop(group));
    }
    std::sort(differences_.begin(), differences_.end(), [](const Difference& a, const Difference& b) {
      return std::tuple(a.to ? a.to->on : LocalDate{}, a.to ? a.to->shift : "", a.machine) <
             std::tuple(b.to ? b.to->on : LocalDate{}, b.to ? b.to->shift : "", b.machine);
    });
    return std::move(differences_);
  }

 private:
  // Tasks of a stop that has its day: they are free for another stop only once it is closed or withdrawn.
  std::set<TaskName> tasks_that_wait() const {
    std::set<TaskName> waiting;
    for (const AgreedStop& stop : shop_.agreed) {
      if (stop.on > shop_.today) continue;
      for (const AgreedTask& task : stop.tasks) waiting.insert({stop.machine, task.task});
    }
    return waiting;
  }

  StopPlace place_of(PlantSlot slot) const {
    return {made_.slots.date_of(slot.day), made_.slots.shifts()[static_cast<std::size_t>(slot.shift)].name};
  }

  // The planned tasks of an agreed stop that need the machine at rest, and the others, which stay with it.
  std::vector<std::string> tasks_at_rest(const AgreedStop& stop) const {
    std::vector<std::string> tasks;
    for (const AgreedTask& one : stop.tasks) {
      if (then_.count({stop.machine, one.task})) tasks.push_back(one.task);
    }
    return tasks;
  }
  std::vector<std::string> other_tasks(const AgreedStop& stop) const {
    std::vector<std::string> tasks;
    for (const AgreedTask& one : stop.tasks) {
      if (!then_.count({stop.machine, one.task})) tasks.push_back(one.task);
    }
    return tasks;
  }

  // Where most of its tasks are; nothing where none of them is in the plan.
  std::optional<PlantSlot> target_of(const AgreedStop& stop) const {
    std::map<PlantSlot, int> votes;
    for (const std::string& task : tasks_at_rest(stop)) {
      if (const auto& slot = then_.at({stop.machine, task}).slot) ++votes[*slot];
    }
    const auto most =
        std::max_element(votes.begin(), votes.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
    return most == votes.end() ? std::nullopt : std::optional{most->first};
  }

  void compare_agreed(const AgreedStop& stop) {
    const int day = made_.slots.day_of(stop.on);
    if (stop.on <= shop_.today || day >= made_.instance.days || tasks_at_rest(stop).empty()) return;
    const auto target = target_of(stop);
    if (!target || !taken_.insert({stop.machine, *target}).second) return add(dropped_stop(stop));
    const Group& group = groups_.at({stop.machine, *target});
    Difference made = stop_with(group, DifferenceKind::changed);
    for (const std::string& task : other_tasks(stop)) made.tasks.push_back(task);
    made.key = stop.id;
    made.stop = stop.id;
    made.version = stop.version;
    made.from = StopPlace{stop.on, stop.shift};
    const bool stays = made.to->on == stop.on && made.to->shift == stop.shift;
    if (!stays) made.kind = DifferenceKind::moved;
    if (!stays || !has_same_tasks(made, stop)) add(std::move(made));
  }

  static bool has_same_tasks(const Difference& made, const AgreedStop& stop) {
    std::set<std::string> agreed;
    for (const AgreedTask& one : stop.tasks) agreed.insert(one.task);
    return agreed == std::set<std::string>(made.tasks.begin(), made.tasks.end());
  }

  Difference dropped_stop(const AgreedStop& stop) const {
    Difference made;
    made.key = stop.id;
    made.kind = DifferenceKind::dropped;
    made.machine = stop.machine;
    made.stop = stop.id;
    made.version = stop.version;
    made.from = StopPlace{stop.on, stop.shift};
    for (const AgreedTask& one : stop.tasks) made.tasks.push_back(one.task);
    made.reasons.push_back(sentence({"tasks-elsewhere"}, "its tasks are done in other stops"));
    return made;
  }

  Difference new_stop(const Group& group) const {
    Difference made = stop_with(group, DifferenceKind::made);
    made.key = fmt::format("{}@{}/{}", group.machine, print(made.to->on), made.to->shift);
    return made;
  }

  Difference stop_with(const Group& group, DifferenceKind kind) const {
    Difference made;
    made.kind = kind;
    made.machine = group.machine;
    made.to = place_of(group.slot);
    made.tasks = group.tasks;
    for (const std::string& task : group.tasks) {
      made.saving += now_.at({group.machine, task}).cost - then_.at({group.machine, task}).cost;
    }
    const PlannedService* service = service_in(made);
    if (service) made.service = service->service;
    add_standing(made, service);
    return made;
  }

  // All tasks of a service are in one slot.
  const PlannedService* service_in(const Difference& made) const {
    const auto& services = made_.services;
    const auto found = std::find_if(services.begin(), services.end(), [&](const PlannedService& one) {
      return one.machine == made.machine && is_in(made.tasks, one.tasks.front());
    });
    return found == services.end() ? nullptr : &*found;
  }

  static bool is_in(const std::vector<std::string>& keys, const std::string& key) {
    return std::find(keys.begin(), keys.end(), key) != keys.end();
  }

  void add_standing(Difference& made, const PlannedService* service) const {
    for (const plan::Machine& machine : made_.instance.machines) {
      if (machine.id != made.machine) continue;
      for (const plan::Task& task : machine.tasks) {
        if (!is_in(made.tasks, task.id) && !(service && service->id == task.id)) continue;
        made.state = std::max(made.state, task.state);
        made.minutes += task.down_hours * 60;
      }
      const bool is_locked = made.state == plan::EnergyState::locked;
      made.minutes += 60 * (is_locked ? machine.stop.locked.hours : machine.stop.stopped.hours);
    }
  }

  // The names of machines for which the outside service comes then as well.
  std::vector<std::string> visited_too(const Difference& made) const {
    const auto shift = made_.slots.shift_of(made.to->on, made.to->shift);
    if (!shift) return {};
    const PlantSlot slot{made_.slots.day_of(made.to->on), *shift};
    std::vector<std::string> machines = machines_visited_too(made_.instance, plan_then_, made.machine, slot);
    for (std::string& name : machines) {
      for (const MachineAhead& machine : shop_.machines) {
        if (machine.key == name) {
          name = machine.name;
          break;
        }
      }
    }
    return machines;
  }

  void add(Difference made) {
    if (made.to) made.reasons = reasons_for(shop_, made_, made, now_, visited_too(made));
    differences_.push_back(std::move(made));
  }

  const ShopAhead& shop_;
  const StopInstance& made_;
  const plan::StopPlan& plan_then_;
  FirstTurns now_;
  FirstTurns then_;
  std::map<GroupKey, Group> groups_;
  std::set<GroupKey> taken_;
  std::vector<Difference> differences_;
};

}  // namespace

std::vector<Difference> differences_of(const ShopAhead& shop, const StopInstance& made, const PlanPair& plans) {
  return Comparison(shop, made, plans).compare();
}

}  // namespace hw::proposal
