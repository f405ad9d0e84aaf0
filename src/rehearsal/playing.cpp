#include "src/rehearsal/playing.h"

#include <algorithm>

#include "libs/values/assert.h"
#include "src/rehearsal/machine_year.h"

namespace hw::rehearsal {
namespace {

// What is drawn for one purpose does not shift what is drawn for another.
enum class Purpose : std::uint64_t { lives = 1, machines = 2 };

std::uint64_t stirred(std::uint64_t a, std::uint64_t b) {
  return numerics::Random(numerics::Random(a).next() ^ (b * 0xd1342543de82ef95U)).next();
}

std::uint64_t seed_of(YearKey key, Purpose purpose) {
  return stirred(stirred(key.seed, key.year), static_cast<std::uint64_t>(purpose));
}

}  // namespace

YearDesk::YearDesk(const Playing& playing) {
  std::size_t counters = 0, intervals = 0, tasks = 0;
  for (const auto& machine : playing.machines_) {
    counters = std::max(counters, machine.pool.counters);
    intervals = std::max(intervals, machine.intervals.size());
    tasks = std::max(tasks, machine.tasks.size());
  }
  totals.resize((counters + 1) * (playing.days_ + 1));
  now.resize(counters + 1);
  targets.resize(intervals);
  due_at.resize(tasks);
  fails_at.resize(tasks);
  next_at.resize(tasks);
  made_at.resize(tasks);
  parts.assign(tasks, numerics::Random(0));
  lives.resize(playing.lives_.size());
}

Playing::Playing(const ShopYear& shop)
    : days_(static_cast<std::size_t>(shop.days)),
      first_weekday_(static_cast<std::size_t>(shop.first_weekday - 1)),
      is_closed_(days_, 0),
      powered_at_rest_(shop.powered_at_rest),
      isolated_(shop.isolated),
      labour_per_hour_(shop.labour_per_hour) {
  HW_ASSERT(check(shop).has_value(), "a checked shop");
  for (const int day : shop.closed) is_closed_[static_cast<std::size_t>(day)] = 1;
  for (const Machine& machine : shop.machines) machines_.push_back(table_of(machine, shop.lives));
  for (const KnownLife& known : shop.lives) {
    LifeTable table;
    double sum = 0;
    for (const life::Believed& one : known.believed) {
      table.lives.push_back(one.life);
      table.shares_up_to.push_back(sum += one.share);
    }
    lives_.push_back(std::move(table));
  }
}

Playing::MachineTable Playing::table_of(const Machine& machine, const std::vector<KnownLife>& lives) const {
  const auto place_of = [&](const std::optional<std::string>& counter) {  // that of the calendar is behind the last
    const auto is_it = [&](const std::string& one) { return counter && one == *counter; };
    const auto there = std::find_if(machine.counters.begin(), machine.counters.end(), is_it);
    return static_cast<std::size_t>(there - machine.counters.begin());
  };
  MachineTable made{day_pool(machine), machine.standing_per_hour, {}, {}};
  for (const Task& task : machine.tasks) {
    TaskTable table;
    table.energy = task.energy;
    table.hours = task.minutes / 60;
    table.planned_cost = task.planned_cost;
    table.intervals_begin = made.intervals.size();
    for (const Interval& one : task.intervals) {
      made.intervals.push_back({place_of(one.counter), one.length, one.heads_up, one.used});
    }
    table.intervals_end = made.intervals.size();
    if (const auto& part = task.part) {
      const auto is_its = [&](const KnownLife& known) { return known.key == part->life; };
      table.life = static_cast<std::size_t>(std::find_if(lives.begin(), lives.end(), is_its) - lives.begin());
      table.life_counter = place_of(part->counter);
      table.age = part->age;
      table.failed_cost = part->failed_cost;
      table.failed_standing_hours = part->failed_standing_hours;
    }
    made.tasks.push_back(table);
  }
  return made;
}

Outcome Playing::play(YearKey key, YearDesk& desk, std::vector<Happening>* told) const {
  Outcome outcome;
  numerics::Random truth(seed_of(key, Purpose::lives));
  for (std::size_t n = 0; n < lives_.size(); ++n) {
    const auto& up_to = lives_[n].shares_up_to;
    const auto there = std::upper_bound(up_to.begin(), up_to.end() - 1, truth.uniform() * up_to.back());
    desk.lives[n] = static_cast<std::size_t>(there - up_to.begin());
  }
  const std::uint64_t machines_seed = seed_of(key, Purpose::machines);
  for (std::size_t n = 0; n < machines_.size(); ++n) {
    MachineYear(*this, n, desk, outcome, told).play(stirred(machines_seed, n));
  }
  return outcome;
}

void Playing::play(YearKey first, std::span<Outcome> years, YearDesk& desk) const {
  for (Outcome& year : years) {
    year = play(first, desk);
    ++first.year;
  }
}

}  // namespace hw::rehearsal
