#include "src/proposal/services_ahead.h"

#include <algorithm>
#include <set>

#include "src/proposal/agreed_limits.h"

namespace hw::proposal {
namespace {

using catalogue::EnergyState;
using catalogue::KindService;
using Keys = std::set<std::string>;

constexpr int months_of_a_year = 12;
// A calendar interval that is about as long as the service's own, as a share of it.
constexpr double alike_min = 0.75, alike_max = 1.5;
constexpr double days_of_a_month = 365.25 / 12;

// A service as it would be done the next time.
struct DueService {
  LocalDate due_on;
  double tolerance_days = 0;
  int age_days = 0;
  std::vector<const TaskAhead*> tasks;  // at least one
};

double months_of(const catalogue::CalendarInterval& every) {
  using Unit = catalogue::CalendarInterval::Unit;
  switch (every.unit) {
    case Unit::year:
      return 12.0 * every.count;
    case Unit::month:
      return every.count;
    case Unit::week:
      return every.count * 7 / days_of_a_month;
    case Unit::day:
      return every.count / days_of_a_month;
    case Unit::shift:
    case Unit::start_up:
      return 0;
  }
  return 0;
}

std::optional<LocalDate> likely_day(const TaskAhead& task) { return due::quantile(task.due, 0.5); }

// When the service would fall due by that task alone.
std::optional<DueService> due_by_calendar(const TaskAhead& task, const KindService& service) {
  std::optional<DueService> first;
  for (const CalendarDue& due : task.calendar) {
    const double share = months_of(due.every) / service.months;
    if (share < alike_min || share > alike_max || (first && first->due_on <= due.due_on)) continue;
    first = DueService{due.due_on, static_cast<double>(due.tolerance_days), task.age_days, {}};
  }
  return first;
}

std::optional<DueService> due_by_forecast(const TaskAhead& task, const KindService&) {
  return DueService{*likely_day(task), task.tolerance_days, task.age_days, {}};
}

template <class DueBy>
std::optional<DueService> first_due(const std::vector<const TaskAhead*>& tasks, const KindService& service,
                                    DueBy due_by) {
  std::optional<DueService> first;
  for (const TaskAhead* task : tasks) {
    const auto due = due_by(*task, service);
    if (due && (!first || due->due_on < first->due_on)) first = due;
  }
  return first;
}

// Nothing where the machine has none of its tasks, or only those that are done `elsewhere`.
std::optional<DueService> due_service(const MachineAhead& machine, const KindService& service, const Keys& elsewhere,
                                      LocalDate today) {
  std::vector<const TaskAhead*> all;
  for (const std::string& key : service.tasks) {
    const auto task = std::find_if(machine.tasks.begin(), machine.tasks.end(),
                                   [&](const TaskAhead& one) { return one.task.key == key; });
    if (task != machine.tasks.end() && !elsewhere.contains(key) && likely_day(*task)) all.push_back(&*task);
  }
  if (all.empty()) return std::nullopt;
  auto due = first_due(all, service, due_by_calendar);
  if (!due) due = first_due(all, service, due_by_forecast);
  const LocalDate next_service = add_months(std::max(due->due_on, today), service.months);
  std::copy_if(all.begin(), all.end(), std::back_inserter(due->tasks),
               [&](const TaskAhead* task) { return *likely_day(*task) < next_service; });
  return due->tasks.empty() ? std::nullopt : due;
}

// Wear: the tasks' own, weighted by their minutes. A day late costs what it does of those that are due by the day on
// which the service is overdue.
CostGrowth growth_of_joint(const DueService& due) {
  double minutes = 0, weighted = 0, plain = 0;
  CostGrowth growth;
  for (const TaskAhead* task : due.tasks) {
    const CostGrowth own = growth_of(task->task);
    minutes += task->task.minutes;
    weighted += task->task.minutes * own.wear;
    plain += own.wear;
    if (*likely_day(*task) - due.due_on <= due.tolerance_days)
      growth.late_day_standing_hours += own.late_day_standing_hours;
  }
  growth.wear = minutes > 0 ? weighted / minutes : plain / static_cast<double>(due.tasks.size());
  return growth;
}

std::string id_of(const KindService& service) { return fmt::format("service {}", service.key); }

TaskAhead joint_task(const KindService& service, const DueService& due, LocalDate today) {
  TaskAhead made;
  made.task.key = id_of(service);
  made.task.title = service.title;
  made.task.skill = catalogue::Skill::technician;
  made.task.energy = EnergyState::powered_at_rest;
  made.due = due::on_calendar(due.due_on);
  made.next = due::on_calendar(add_months(today, service.months));
  made.age_days = due.age_days;
  made.tolerance_days = due.tolerance_days;
  made.joint.emplace().growth = growth_of_joint(due);
  std::vector<catalogue::Task> tasks;
  for (const TaskAhead* one : due.tasks) {
    tasks.push_back(one->task);
    made.task.energy = std::max(made.task.energy, one->task.energy);
    made.task.minutes += one->task.minutes;
    made.joint->tasks.push_back(one->task.key);
    made.joint->guards_people = made.joint->guards_people || guards_people(one->task);
  }
  made.joint->standing_minutes = catalogue::standing_minutes(tasks, service.people);
  return made;
}

TaskAhead held_task(const TaskAhead& task) {
  TaskAhead held;
  held.task = task.task;
  held.is_held = true;
  return held;
}

std::size_t count_in(const AgreedStop& stop, const DueService& due) {
  return static_cast<std::size_t>(std::count_if(due.tasks.begin(), due.tasks.end(), [&](const TaskAhead* task) {
    return std::any_of(stop.tasks.begin(), stop.tasks.end(),
                       [&](const AgreedTask& agreed) { return agreed.task == task->task.key; });
  }));
}

// One machine of the shop, turned into its services and what is agreed for it.
class MachineServices {
 public:
  MachineServices(const MachineAhead& machine, ServicesAhead& into) : machine_(machine), into_(into) {
    for (AgreedStop& stop : into.shop.agreed) {
      if (stop.machine == machine.key) stops_.push_back(&stop);
    }
  }

  std::vector<TaskAhead> tasks() && {
    for (const KindService& service : machine_.services) plan(service);
    for (const TaskAhead& task : machine_.tasks) {
      if (is_agreed(task.task.key)) made_.push_back(held_task(task));
    }
    return std::move(made_);
  }

 private:
  LocalDate today() const { return into_.shop.today; }

  void plan(const KindService& service) {
    auto due = due_service(machine_, service, {}, today());
    if (!due) return;
    AgreedStop* its_stop = stop_of(*due);
    due = due_service(machine_, service, agreed_but_in(its_stop), today());
    if (due && its_stop && !can_take(*its_stop, service, *due)) {
      its_stop = nullptr;
      due = due_service(machine_, service, agreed_but_in(its_stop), today());
    }
    if (!due) return;
    if (!its_stop && due->due_on > add_months(today(), months_of_a_year)) {
      into_.later.push_back({machine_.key, service.key, due->due_on});
      return;
    }
    made_.push_back(joint_task(service, *due, today()));
    into_.planned.push_back({machine_.key, id_of(service), service.key, made_.back().joint->tasks});
    if (its_stop) join_in(*its_stop, made_.back());
  }

  // Whether what the stop lacks of the service can come to it within the limits of a plan.
  bool can_take(const AgreedStop& stop, const KindService& service, const DueService& due) const {
    if (count_in(stop, due) == due.tasks.size()) return true;
    const PlantSlots slots(into_.shop.calendar, today());
    const auto shift = slots.shift_of(stop.on, stop.shift);
    if (!shift || stop.on <= today()) return false;
    ShopAhead shop;
    shop.calendar = into_.shop.calendar;
    shop.stopping = into_.shop.stopping;
    shop.cells = into_.shop.cells;
    shop.people = into_.shop.people;
    shop.agreed = into_.shop.agreed;
    AgreedStop& with_all = shop.agreed[static_cast<std::size_t>(&stop - into_.shop.agreed.data())];
    join_in(with_all, joint_task(service, due, today()));
    return AgreedLimits(shop, slots).allows(with_all, {slots.day_of(stop.on), *shift}, plan::Task{});
  }

  // The agreed stop that holds half of its tasks or more.
  AgreedStop* stop_of(const DueService& due) const {
    const auto most = std::max_element(stops_.begin(), stops_.end(), [&](const AgreedStop* a, const AgreedStop* b) {
      return count_in(*a, due) < count_in(*b, due);
    });
    return most != stops_.end() && 2 * count_in(**most, due) >= due.tasks.size() ? *most : nullptr;
  }

  Keys agreed_but_in(const AgreedStop* but) const {
    Keys keys;
    for (const AgreedStop* stop : stops_) {
      if (stop == but) continue;
      for (const AgreedTask& task : stop->tasks) keys.insert(task.task);
    }
    return keys;
  }

  bool is_agreed(const std::string& key) const {
    return std::any_of(stops_.begin(), stops_.end(), [&](const AgreedStop* stop) {
      return std::any_of(stop->tasks.begin(), stop->tasks.end(),
                         [&](const AgreedTask& task) { return task.task == key; });
    });
  }

  // In the stop the one task stands for those of the service.
  static void join_in(AgreedStop& stop, const TaskAhead& joint) {
    const auto& keys = joint.joint->tasks;
    std::erase_if(stop.tasks,
                  [&](const AgreedTask& task) { return std::find(keys.begin(), keys.end(), task.task) != keys.end(); });
    stop.tasks.push_back(
        {joint.task.key, joint.task.skill, joint.task.energy, joint.task.minutes, joint.joint->standing_minutes});
  }

  const MachineAhead& machine_;
  ServicesAhead& into_;
  std::vector<AgreedStop*> stops_;
  std::vector<TaskAhead> made_;
};

}  // namespace

ServicesAhead services_ahead(const ShopAhead& shop) {
  ServicesAhead ahead{shop, {}, {}};
  for (std::size_t i = 0; i < shop.machines.size(); ++i) {
    ahead.shop.machines[i].tasks = MachineServices(shop.machines[i], ahead).tasks();
  }
  return ahead;
}

FirstTurns turns_of_tasks(FirstTurns turns, const std::vector<PlannedService>& services) {
  for (const PlannedService& service : services) {
    const auto turn = turns.extract({service.machine, service.id});
    if (turn.empty()) continue;
    FirstTurn share = turn.mapped();
    share.cost /= static_cast<double>(service.tasks.size());
    for (const std::string& task : service.tasks) turns[{service.machine, task}] = share;
  }
  return turns;
}

}  // namespace hw::proposal
