#include "src/rehearsal/machine_year.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace hw::rehearsal {
namespace {

using catalogue::EnergyState;

constexpr double never = std::numeric_limits<double>::infinity();

// The place of the first least value. Four at a time, each without waiting for the one before.
std::size_t least(std::span<const double> times) {
  std::array<double, 4> lanes{never, never, never, never};
  std::size_t n = 0;
  for (; n + 4 <= times.size(); n += 4) {
    for (std::size_t lane = 0; lane < 4; ++lane) lanes[lane] = std::min(lanes[lane], times[n + lane]);
  }
  for (; n < times.size(); ++n) lanes[0] = std::min(lanes[0], times[n]);
  const double first = std::min(std::min(lanes[0], lanes[1]), std::min(lanes[2], lanes[3]));
  return static_cast<std::size_t>(std::find(times.begin(), times.end(), first) - times.begin());
}

// The life of a part that is good at that age: R(life) / R(age) is uniform.
double drawn_life(const life::Weibull& life, double age, double uniform) {
  const double spent = age > 0 ? std::pow(age / life.scale, life.shape) : 0;
  return life.scale * std::pow(spent - std::log(uniform), 1 / life.shape);
}

}  // namespace

MachineYear::MachineYear(const Playing& playing, std::size_t machine, YearDesk& desk, Outcome& outcome,
                         std::vector<Happening>* told)
    : playing_(playing),
      table_(playing.machines_[machine]),
      machine_(machine),
      days_(playing.days_),
      desk_(desk),
      outcome_(outcome),
      told_(told) {}

void MachineYear::play(std::uint64_t seed) {
  numerics::Random seeds(seed);
  draw_use(seeds.next());
  begin_tasks(seeds.next());
  const std::size_t tasks = table_.tasks.size();
  if (tasks == 0) return;
  const std::span next_at(desk_.next_at.data(), tasks);
  for (;;) {
    const std::size_t next = least(next_at);
    const double at = next_at[next];
    if (at >= static_cast<double>(days_)) return;
    look_at_counters(at);
    if (desk_.fails_at[next] < desk_.due_at[next]) {
      fail(next, at);
    } else if (table_.tasks[next].energy == EnergyState::in_production) {
      do_work(next, at);
    } else {
      hold_stop(at);
    }
  }
}

void MachineYear::draw_use(std::uint64_t seed) {
  numerics::Random random(seed);
  const std::size_t counters = table_.pool.counters;
  const std::size_t calendar = counters;
  double* before = desk_.totals.data();
  std::fill(before, before + counters + 1, 0.0);
  std::size_t weekday = playing_.first_weekday_;
  for (std::size_t day = 0; day < days_; ++day) {
    const auto& rows = table_.pool.rows[weekday];
    const double u = random.uniform();  // also on closed days: closing one does not shift the others
    const auto row = static_cast<std::size_t>(u * static_cast<double>(table_.pool.size(weekday)));
    const double* const used = rows.data() + row * counters;
    const double share = playing_.is_closed_[day] != 0 ? 0 : 1;
    double* const after = before + counters + 1;
    for (std::size_t c = 0; c < counters; ++c) after[c] = before[c] + share * used[c];
    after[calendar] = before[calendar] + 1;
    before = after;
    weekday = weekday == 6 ? 0 : weekday + 1;
  }
}

void MachineYear::begin_tasks(std::uint64_t seed) {
  numerics::Random seeds(seed);
  for (std::size_t n = 0; n < table_.tasks.size(); ++n) {
    const auto& task = table_.tasks[n];
    for (std::size_t i = task.intervals_begin; i < task.intervals_end; ++i) {
      desk_.targets[i] = table_.intervals[i].length - table_.intervals[i].used;
    }
    find_due(n, 0);
    desk_.parts[n] = numerics::Random(seeds.next());
    desk_.fails_at[n] = never;
    if (task.life != Playing::none) {
      desk_.now[task.life_counter] = 0;
      draw_part(n, task.age, 0);
    }
    desk_.next_at[n] = std::min(desk_.due_at[n], desk_.fails_at[n]);
  }
}

void MachineYear::look_at_counters(double at) {
  const auto day = static_cast<std::size_t>(at);
  const double part = at - static_cast<double>(day);
  const std::size_t counters = table_.pool.counters + 1;
  const double* const begins = desk_.totals.data() + day * counters;
  const double* const ends = begins + counters;
  for (std::size_t c = 0; c < counters; ++c) desk_.now[c] = begins[c] + part * (ends[c] - begins[c]);
}

double MachineYear::time_of(std::size_t counter, double total, double from) const {
  const std::size_t counters = table_.pool.counters + 1;
  const double* const totals = desk_.totals.data() + counter;
  const double at_end = totals[days_ * counters];
  if (at_end < total) return never;
  const auto first = static_cast<std::size_t>(from);
  const double at_first = totals[first * counters];
  if (at_first >= total) return from;
  // The first day at whose beginning it has: near where it would be, were all days alike.
  const double share = (total - at_first) / (at_end - at_first);
  std::size_t day = first + static_cast<std::size_t>(share * static_cast<double>(days_ - first));
  while (totals[day * counters] < total) ++day;
  while (totals[(day - 1) * counters] >= total) --day;
  const double before = totals[(day - 1) * counters];
  return std::max(from, static_cast<double>(day - 1) + (total - before) / (totals[day * counters] - before));
}

void MachineYear::find_due(std::size_t task, double at) {
  double first = never;
  const auto& table = table_.tasks[task];
  for (std::size_t i = table.intervals_begin; i < table.intervals_end; ++i) {
    first = std::min(first, time_of(table_.intervals[i].counter, desk_.targets[i], at));
  }
  desk_.due_at[task] = first;
}

void MachineYear::begin_anew(std::size_t task, double at) {
  const auto& table = table_.tasks[task];
  for (std::size_t i = table.intervals_begin; i < table.intervals_end; ++i) {
    const auto& interval = table_.intervals[i];
    desk_.targets[i] = desk_.now[interval.counter] + interval.length;
  }
  find_due(task, at);
  if (table.life != Playing::none) draw_part(task, 0, at);
  desk_.next_at[task] = std::min(desk_.due_at[task], desk_.fails_at[task]);
}

void MachineYear::draw_part(std::size_t task, double age, double at) {
  const auto& table = table_.tasks[task];
  const life::Weibull& life = playing_.lives_[table.life].lives[desk_.lives[table.life]];
  desk_.made_at[task] = desk_.now[table.life_counter] - age;
  const double total = desk_.made_at[task] + drawn_life(life, age, desk_.parts[task].uniform());
  desk_.fails_at[task] = time_of(table.life_counter, total, at);
}

bool MachineYear::is_near(std::size_t task, double at) const {
  const auto& table = table_.tasks[task];
  if (table.energy == EnergyState::in_production) return false;
  if (desk_.due_at[task] <= at) return true;
  for (std::size_t i = table.intervals_begin; i < table.intervals_end; ++i) {
    const auto& interval = table_.intervals[i];
    if (desk_.now[interval.counter] >= desk_.targets[i] - interval.heads_up) return true;
  }
  return false;
}

void MachineYear::fail(std::size_t task, double at) {
  const auto& table = table_.tasks[task];
  outcome_.failures += 1;
  outcome_.standing_hours += table.failed_standing_hours;
  outcome_.cost += table.failed_cost + table.failed_standing_hours * table_.standing_per_hour;
  tell(Happening::What::failed, task, at);
  begin_anew(task, at);
}

void MachineYear::do_work(std::size_t task, double at) {
  const auto& table = table_.tasks[task];
  outcome_.tasks_done += 1;
  outcome_.hands_on_hours += table.hours;
  outcome_.cost += table.hours * playing_.labour_per_hour_ + table.planned_cost;
  tell(Happening::What::done, task, at);
  begin_anew(task, at);
}

bool MachineYear::has_isolated_due(double at) const {
  for (std::size_t n = 0; n < table_.tasks.size(); ++n) {
    if (desk_.due_at[n] <= at && table_.tasks[n].energy == EnergyState::isolated) return true;
  }
  return false;
}

void MachineYear::hold_stop(double at) {
  const bool is_isolated = has_isolated_due(at);
  double hours = 0;
  for (std::size_t n = 0; n < table_.tasks.size(); ++n) {
    if (table_.tasks[n].energy == EnergyState::isolated && !is_isolated) continue;
    if (!is_near(n, at)) continue;
    hours += table_.tasks[n].hours;
    do_work(n, at);
  }
  const SetUp& set_up = is_isolated ? playing_.isolated_ : playing_.powered_at_rest_;
  hours += set_up.hours;
  outcome_.stops += 1;
  outcome_.standing_hours += hours;
  outcome_.cost += set_up.cost + hours * table_.standing_per_hour;
}

void MachineYear::tell(Happening::What what, std::size_t task, double at) {
  if (told_ == nullptr) return;
  const std::size_t counter = table_.tasks[task].life_counter;
  const double age = counter == Playing::none ? 0 : desk_.now[counter] - desk_.made_at[task];
  told_->push_back({what, machine_, task, at, age});
}

}  // namespace hw::rehearsal
