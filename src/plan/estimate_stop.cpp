#include "src/plan/estimate_stop.h"

#include <algorithm>

#include "src/plan/cycle_cost.h"

namespace hw::plan {
namespace {

template <class Named>
const Named* find_named(const std::vector<Named>& all, const std::string& id) {
  const auto there = std::find_if(all.begin(), all.end(), [&](const Named& one) { return one.id == id; });
  return there == all.end() ? nullptr : &*there;
}

const Travel* find_way(const std::vector<Travel>& travel, const std::string& place) {
  const auto way = std::find_if(travel.begin(), travel.end(), [&](const Travel& one) { return one.place == place; });
  return way == travel.end() ? nullptr : &*way;
}

// The day that is cheapest for the first execution alone.
void find_best_day(const Instance& instance, const Task& task, TaskEstimate& estimate) {
  const Fifths lengths = first_lengths(task);
  const int begin = std::clamp(task.first_earliest_day, 0, instance.days - 1);
  const int end = std::clamp(task.first_latest_day.value_or(instance.days - 1), begin, instance.days - 1);
  estimate.best_day = begin;
  estimate.best_loss = cycle_cost(task, task.age_days + begin, lengths);
  for (int day = begin + 1; day <= end; ++day) {
    const double loss = cycle_cost(task, task.age_days + day, lengths);
    if (loss >= estimate.best_loss) continue;
    estimate.best_day = day;
    estimate.best_loss = loss;
  }
}

TaskEstimate estimate_task(const Instance& instance, const Task& task, int day) {
  TaskEstimate estimate{.task = task.id};
  const Fifths lengths = first_lengths(task);
  const double share = 1 / static_cast<double>(lengths.size());
  for (std::size_t i = 0; i < lengths.size(); ++i) {
    Fifths same;
    same.fill(lengths[i]);
    const double loss = share * cycle_cost(task, task.age_days + day, same);
    const double away = task.first_due_days[i] - day;
    (away > 0 ? estimate.early_loss : estimate.late_loss) += loss;
    (away > 0 ? estimate.early_days : estimate.late_days) += share * std::abs(away);
    if (away < 0) estimate.chance_due_before += share;
  }
  find_best_day(instance, task, estimate);
  return estimate;
}

class Estimation {
 public:
  Estimation(const Instance& instance, const Machine& machine, const StopTry& asked)
      : instance_(instance), machine_(machine), asked_(asked) {
    made_.state = EnergyState::running;
  }

  void add(const Task& task) {
    made_.tasks.push_back(estimate_task(instance_, task, asked_.slot.day));
    made_.state = std::max(made_.state, task.state);
    if (task.state != EnergyState::running) made_.standing_hours += task.down_hours;
    if (task.agreed && DayShift{task.agreed->day, task.agreed->shift} != asked_.slot) {
      made_.moving += task.agreed->move_cost.value_or(0);
      if (!task.agreed->move_cost) say("{} is fixed for day {}", task.id, task.agreed->day);
    }
    if (asked_.slot.day < task.first_earliest_day) say("{} cannot be before day {}", task.id, task.first_earliest_day);
    if (task.first_latest_day && asked_.slot.day > *task.first_latest_day) {
      say("{} has to be done by day {}", task.id, *task.first_latest_day);
    }
    const double loss = loss_per_hour(instance_, machine_, asked_.slot);
    if (task.state == EnergyState::running && loss <= 0) say("{} needs {} in production", task.id, machine_.id);
    want(task);
  }

  StopEstimate finish() && {
    if (made_.state != EnergyState::running) stand();
    for (CrewEstimate& crew : made_.crews) staff(crew);
    return std::move(made_);
  }

 private:
  template <class... Args>
  void say(fmt::format_string<Args...> form, Args&&... args) {
    made_.troubles.push_back(fmt::format(form, std::forward<Args>(args)...));
  }

  void want(const Task& task) {
    auto& crews = made_.crews;
    auto there = std::find_if(crews.begin(), crews.end(), [&](const auto& one) { return one.crew == task.crew; });
    if (there == crews.end()) there = crews.insert(there, CrewEstimate{.crew = task.crew});
    there->wants_hours += task.labour_hours;
  }

  void stand() {
    const bool is_locked = made_.state == EnergyState::locked;
    const SetUp& set_up = is_locked ? machine_.stop.locked : machine_.stop.stopped;
    const double shift_hours = instance_.shifts[static_cast<std::size_t>(asked_.slot.shift)].hours;
    made_.set_up = set_up.cost;
    made_.standing_hours += set_up.hours;
    made_.standing = made_.standing_hours * loss_per_hour(instance_, machine_, asked_.slot);
    made_.hours_over_shift = std::max(0.0, made_.standing_hours - shift_hours);
    if (made_.hours_over_shift > 0) say("the stop takes {} h of {}", made_.standing_hours, shift_hours);
    if (!may_stop(machine_, asked_.slot.day)) say("{} must not be stopped on day {}", machine_.id, asked_.slot.day);
    const Cell& cell = *find_named(instance_.cells, machine_.cell);
    if (of_week(cell.max_down, asked_.slot) < 1) say("cell {} may have no machine down then", cell.id);
  }

  // The way to the machine's place, unless the crew is there already.
  void bring(const Crew& crew, CrewEstimate& wanted) {
    const Travel* way = crew.travel && machine_.place ? find_way(*crew.travel, *machine_.place) : nullptr;
    if (way == nullptr) return;
    wanted.travels = true;
    const auto& visiting = asked_.visiting;
    wanted.shares_visit = std::find(visiting.begin(), visiting.end(), crew.id) != visiting.end();
    if (wanted.shares_visit) return;
    wanted.travel_cost = way->cost;
    wanted.travel_hours = way->hours;
    wanted.wants_hours += way->hours;
    made_.travel += way->cost;
  }

  void staff(CrewEstimate& wanted) {
    const Crew& crew = *find_named(instance_.crews, wanted.crew);
    bring(crew, wanted);
    double taken = 0;
    for (const TakenHours& other : asked_.taken) taken += other.crew == wanted.crew ? other.hours : 0;
    const CrewHours there = crew_hours(instance_, crew, asked_.slot);
    wanted.has_hours = std::max(0.0, there.offered - taken);
    wanted.overtime_hours = std::max(0.0, wanted.wants_hours - wanted.has_hours);
    wanted.overtime_cost = wanted.overtime_hours * crew.overtime_cost_per_hour;
    made_.overtime += wanted.overtime_cost;
    made_.premium += wanted.wants_hours * of_week(crew.premium_per_hour, asked_.slot);
    const double most = there.offered + there.overtime - taken;
    wanted.is_enough = wanted.wants_hours <= 0 || wanted.wants_hours <= most + 1e-6;
    if (!wanted.is_enough) say("crew {} has {} h, not {}", crew.id, std::max(0.0, most), wanted.wants_hours);
  }

  const Instance& instance_;
  const Machine& machine_;
  const StopTry& asked_;
  StopEstimate made_;
};

}  // namespace

double StopEstimate::timing() const {
  double sum = 0;
  for (const TaskEstimate& task : tasks) sum += task.early_loss + task.late_loss;
  return sum;
}

Result<StopEstimate> estimate_stop(const Instance& instance, const StopTry& asked) {
  const Machine* machine = find_named(instance.machines, asked.machine);
  if (machine == nullptr) return refuse(ErrorCode::not_found, "there is no machine {}", asked.machine);
  const auto shifts = static_cast<int>(instance.shifts.size());
  const auto& [day, shift] = asked.slot;
  if (day < 0 || day >= instance.days || shift < 0 || shift >= shifts) {
    return refuse(ErrorCode::bad_input, "day {} shift {}: must be within {} days of {} shifts", day, shift,
                  instance.days, shifts);
  }
  Estimation estimation(instance, *machine, asked);
  for (const std::string& id : asked.tasks) {
    const Task* task = find_named(machine->tasks, id);
    if (task == nullptr) return refuse(ErrorCode::not_found, "{} has no task {}", asked.machine, id);
    estimation.add(*task);
  }
  return std::move(estimation).finish();
}

}  // namespace hw::plan
