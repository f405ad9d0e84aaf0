#include <cmath>
#include <map>
#include <set>

#include "src/plan/instance.h"

namespace hw::plan {
namespace {

constexpr int days_max = 3700;  // ten years
constexpr std::size_t shifts_max = 24;
constexpr std::size_t tasks_max = 2000;  // of one machine
constexpr double number_max = 1e9;

// A range that a number must be in, and how to say it.
struct Range {
  double min;
  double max;
  const char* says;
};
constexpr Range amounts{0, number_max, "must be a number from 0 to 1e9"};
constexpr Range day_hours{0, 24, "must be from 0 to 24 hours"};
constexpr Range work_hours{0, 1e6, "must be from 0 to 1e6 hours"};
constexpr Range wears{1.001, 20, "must be above 1 (from 1.001) and at most 20: up to 1 nothing wears out"};

Result<void> check_range(double number, const Range& range, const std::string& place) {
  if (number >= range.min && number <= range.max) return {};  // a NaN is in no range
  return refuse(ErrorCode::bad_input, "{}: {}, not {}", place, range.says, number);
}

Result<void> check_id(const std::string& id, std::set<std::string>& seen, const std::string& place) {
  if (id.empty()) return refuse(ErrorCode::bad_input, "{}.id: must not be empty", place);
  if (!seen.insert(id).second) return refuse(ErrorCode::bad_input, "{}.id: \"{}\" is there twice", place, id);
  return {};
}

template <class Number>
Result<void> check_table(const WeekTable<Number>& table, std::size_t shifts, const Range& range,
                         const std::string& place) {
  if (table.size() != 7) {
    return refuse(ErrorCode::bad_input, "{}: must have 7 rows, Monday first, not {}", place, table.size());
  }
  for (std::size_t day = 0; day < 7; ++day) {
    const std::string row = fmt::format("{}[{}]", place, day);
    if (table[day].size() != shifts) {
      return refuse(ErrorCode::bad_input, "{}: must have one number for each of the {} shifts, not {}", row, shifts,
                    table[day].size());
    }
    for (std::size_t shift = 0; shift < shifts; ++shift) {
      HW_TRY(check_range(static_cast<double>(table[day][shift]), range, fmt::format("{}[{}]", row, shift)));
    }
  }
  return {};
}

Result<void> check_shifts(const std::vector<Shift>& shifts) {
  if (shifts.empty() || shifts.size() > shifts_max) {
    return refuse(ErrorCode::bad_input, "shifts: there must be 1 to {}, not {}", shifts_max, shifts.size());
  }
  for (std::size_t i = 0; i < shifts.size(); ++i) {
    const std::string place = fmt::format("shifts[{}]", i);
    HW_TRY(check_range(shifts[i].start_hour, day_hours, place + ".start_hour"));
    HW_TRY(check_range(shifts[i].hours, day_hours, place + ".hours"));
    if (shifts[i].hours == 0) return refuse(ErrorCode::bad_input, "{}.hours: a shift must last", place);
  }
  return {};
}

const Range day_range{0, days_max, "must be a day from 0"};

Result<void> check_slot(int day, int shift, const Instance& instance, const std::string& place) {
  const Range shift_range{0, static_cast<double>(instance.shifts.size() - 1), "must be the number of a shift, from 0"};
  HW_TRY(check_range(day, day_range, place + ".day"));
  return check_range(shift, shift_range, place + ".shift");
}

Result<void> check_absent(const Crew& crew, const Instance& instance, const std::string& place) {
  const std::vector<Absence> none;
  const std::vector<Absence>& absent = crew.absent ? *crew.absent : none;
  for (std::size_t i = 0; i < absent.size(); ++i) {
    const std::string at = fmt::format("{}.absent[{}]", place, i);
    HW_TRY(check_slot(absent[i].day, absent[i].shift, instance, at));
    HW_TRY(check_range(absent[i].hours, work_hours, at + ".hours"));
  }
  return {};
}

Result<void> check_travel(const Crew& crew, const Instance& instance, const std::string& place) {
  std::set<std::string> places;
  for (const Machine& machine : instance.machines) places.insert(machine.place.value_or(""));
  double longest = 0;
  for (const Shift& shift : instance.shifts) longest = std::max(longest, shift.hours);
  std::set<std::string> seen;
  const std::vector<Travel> none;
  const std::vector<Travel>& travel = crew.travel ? *crew.travel : none;
  for (std::size_t i = 0; i < travel.size(); ++i) {
    const std::string at = fmt::format("{}.travel[{}]", place, i);
    const std::string& to = travel[i].place;
    if (to.empty() || !places.count(to)) {
      return refuse(ErrorCode::bad_input, "{}.place: no machine has the place \"{}\"", at, to);
    }
    if (!seen.insert(to).second) return refuse(ErrorCode::bad_input, "{}.place: \"{}\" is there twice", at, to);
    HW_TRY(check_range(travel[i].cost, amounts, at + ".cost"));
    HW_TRY(
        check_range(travel[i].hours, {0, longest, "must be from 0 to the hours of the longest shift"}, at + ".hours"));
  }
  return {};
}

Result<void> check_crew(const Crew& crew, const Instance& instance, const std::string& place) {
  const std::size_t shifts = instance.shifts.size();
  HW_TRY(check_table(crew.hours, shifts, work_hours, place + ".hours"));
  HW_TRY(check_table(crew.overtime_hours, shifts, work_hours, place + ".overtime_hours"));
  HW_TRY(check_table(crew.premium_per_hour, shifts, amounts, place + ".premium_per_hour"));
  HW_TRY(check_range(crew.overtime_cost_per_hour, amounts, place + ".overtime_cost_per_hour"));
  for (const int day : crew.days_off) HW_TRY(check_range(day, day_range, place + ".days_off"));
  HW_TRY(check_absent(crew, instance, place));
  return check_travel(crew, instance, place);
}

Result<void> check_lengths(const Fifths& days, double age, const std::string& place) {
  for (std::size_t i = 0; i < days.size(); ++i) {
    const double length = age + days[i];
    if (length > 0 && length <= number_max) continue;
    return refuse(ErrorCode::bad_input, "{}[{}]: a cycle must be longer than 0 days (its age counted in), not {}",
                  place, i, length);
  }
  return {};
}

Result<void> check_amounts(const Task& task, const std::string& place) {
  const std::initializer_list<std::pair<double, const char*>> fields = {
      {task.own_cost, "own_cost"},
      {task.late_tolerance_days, "late_tolerance_days"},
      {task.late_cost_per_day, "late_cost_per_day"},
      {task.carry_over_cost, "carry_over_cost"},
      {task.age_days, "age_days"}};
  for (const auto& [amount, field] : fields) HW_TRY(check_range(amount, amounts, fmt::format("{}.{}", place, field)));
  HW_TRY(check_range(task.labour_hours, work_hours, place + ".labour_hours"));
  return check_range(task.down_hours, work_hours, place + ".down_hours");
}

Result<void> check_gaps(const Task& task, const std::string& place) {
  if (task.min_gap_days < 0) {
    return refuse(ErrorCode::bad_input, "{}.min_gap_days: must not be below 0, but is {}", place, task.min_gap_days);
  }
  if (task.max_gap_days < std::max(1, task.min_gap_days)) {
    return refuse(ErrorCode::bad_input,
                  "{}.max_gap_days: {} contradicts min_gap_days {}; it must be at least that and 1", place,
                  task.max_gap_days, task.min_gap_days);
  }
  if (task.first_latest_day && *task.first_latest_day < task.first_earliest_day) {
    return refuse(ErrorCode::bad_input,
                  "{}.first_latest_day: {} contradicts first_earliest_day {}; it must not be before", place,
                  *task.first_latest_day, task.first_earliest_day);
  }
  return {};
}

Result<void> check_agreed(const Task& task, const Instance& instance, const std::string& place) {
  if (!task.agreed) return {};
  HW_TRY(check_slot(task.agreed->day, task.agreed->shift, instance, place));
  if (task.agreed->day >= instance.days) {
    return refuse(ErrorCode::bad_input, "{}.day: {} is beyond the {} days that are planned", place, task.agreed->day,
                  instance.days);
  }
  return check_range(task.agreed->move_cost.value_or(0), amounts, place + ".move_cost");
}

Result<void> check_task(const Task& task, const Instance& instance, const std::set<std::string>& crews,
                        const std::string& place) {
  if (!crews.count(task.crew)) {
    return refuse(ErrorCode::bad_input, "{}.crew: there is no crew \"{}\" in crews", place, task.crew);
  }
  HW_TRY(check_amounts(task, place));
  HW_TRY(check_range(task.wear, wears, place + ".wear"));
  HW_TRY(check_lengths(task.first_due_days, task.age_days, place + ".first_due_days"));
  HW_TRY(check_lengths(task.cycle_days, 0, place + ".cycle_days"));
  HW_TRY(check_gaps(task, place));
  return check_agreed(task, instance, place + ".agreed");
}

Result<void> check_tasks(const Machine& machine, const Instance& instance, const std::set<std::string>& crews,
                         const std::string& place) {
  if (machine.tasks.size() > tasks_max) {
    return refuse(ErrorCode::bad_input, "{}.tasks: {} tasks on one machine; at most {} can be planned", place,
                  machine.tasks.size(), tasks_max);
  }
  std::set<std::string> seen;
  for (std::size_t i = 0; i < machine.tasks.size(); ++i) {
    const std::string at = fmt::format("{}.tasks[{}]", place, i);
    HW_TRY(check_id(machine.tasks[i].id, seen, at));
    HW_TRY(check_task(machine.tasks[i], instance, crews, at));
  }
  return {};
}

Result<void> check_set_up(const SetUp& set_up, const std::string& place) {
  HW_TRY(check_range(set_up.cost, amounts, place + ".cost"));
  return check_range(set_up.hours, work_hours, place + ".hours");
}

Result<void> check_machine(const Machine& machine, const Instance& instance, const std::string& place) {
  HW_TRY(check_table(machine.loss_per_hour, instance.shifts.size(), amounts, place + ".loss_per_hour"));
  HW_TRY(check_set_up(machine.stop.stopped, place + ".stop.stopped"));
  HW_TRY(check_set_up(machine.stop.locked, place + ".stop.locked"));
  if (machine.stop.locked.cost < machine.stop.stopped.cost || machine.stop.locked.hours < machine.stop.stopped.hours) {
    return refuse(ErrorCode::bad_input, "{}.stop.locked: must cost and take at least what stopped does", place);
  }
  for (std::size_t i = 0; i < machine.blackouts.size(); ++i) {
    const auto& [first, last] = machine.blackouts[i];
    if (first <= last) continue;
    return refuse(ErrorCode::bad_input, "{}.blackouts[{}]: its last day {} is before its first {}", place, i, last,
                  first);
  }
  return {};
}

Result<std::set<std::string>> check_crews(const Instance& instance) {
  std::set<std::string> crews;
  for (std::size_t i = 0; i < instance.crews.size(); ++i) {
    const std::string place = fmt::format("crews[{}]", i);
    HW_TRY(check_id(instance.crews[i].id, crews, place));
    HW_TRY(check_crew(instance.crews[i], instance, place));
  }
  return crews;
}

Result<std::set<std::string>> check_cells(const Instance& instance) {
  std::set<std::string> cells;
  for (std::size_t i = 0; i < instance.cells.size(); ++i) {
    const std::string place = fmt::format("cells[{}]", i);
    HW_TRY(check_id(instance.cells[i].id, cells, place));
    HW_TRY(check_table(instance.cells[i].max_down, instance.shifts.size(), amounts, place + ".max_down"));
  }
  return cells;
}

Result<void> check_head(const Instance& instance) {
  if (instance.format != "hourwright-stops-1") {
    return refuse(ErrorCode::bad_input, "format: must be \"hourwright-stops-1\", not \"{}\"", instance.format);
  }
  if (instance.days < 1 || instance.days > days_max) {
    return refuse(ErrorCode::bad_input, "days: must be from 1 to {}, not {}", days_max, instance.days);
  }
  HW_TRY(check_shifts(instance.shifts));
  for (const int day : instance.closed_days.value_or(std::vector<int>())) {
    HW_TRY(check_range(day, day_range, "closed_days"));
  }
  return {};
}

}  // namespace

Result<void> check_instance(const Instance& instance) {
  HW_TRY(check_head(instance));
  HW_TAKE(crews, check_crews(instance));
  HW_TAKE(cells, check_cells(instance));
  std::set<std::string> machines;
  for (std::size_t i = 0; i < instance.machines.size(); ++i) {
    const Machine& machine = instance.machines[i];
    const std::string place = fmt::format("machines[{}]", i);
    HW_TRY(check_id(machine.id, machines, place));
    if (!cells.count(machine.cell)) {
      return refuse(ErrorCode::bad_input, "{}.cell: there is no cell \"{}\" in cells", place, machine.cell);
    }
    HW_TRY(check_machine(machine, instance, place));
    HW_TRY(check_tasks(machine, instance, crews, place));
  }
  return {};
}

}  // namespace hw::plan
