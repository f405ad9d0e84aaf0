// How fast years of a shop are played: 24 machines with 40 tasks each on five counters, 12 of which replace a part that
// can fail.
//   rehearsal_bench         prints one JSON object: years a second, and what the first years came to
//   rehearsal_bench --shop  prints the same shop for rehearsal_numpy.py

#include <algorithm>
#include <cstring>
#include <ctime>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "libs/numerics/random.h"
#include "src/rehearsal/playing.h"
#include "src/rehearsal/spread.h"

namespace {

using namespace hw;

constexpr std::size_t machines = 24, tasks_each = 40, parts_each = 12, years_played = 2000;
constexpr std::array<double, 5> hours_a_day{14, 10, 6, 7, 5};

rehearsal::Task draw_task(numerics::Random& random, std::size_t number, const std::string& counter) {
  rehearsal::Task task;
  task.key = fmt::format("t{}", number);
  const double length = random.log_between(100, 4000);
  task.intervals = {{counter, length, length * random.between(0.05, 0.15), length * random.uniform()}};
  if (random.chance(0.3)) task.intervals.push_back({std::nullopt, 365, 30, 365 * random.uniform()});
  task.minutes = random.between(5, 60);
  task.energy = static_cast<catalogue::EnergyState>(random.whole_between(0, 2));
  task.planned_cost = random.between(0, 100);
  return task;
}

rehearsal::ShopYear draw_shop() {
  numerics::Random random(24);
  rehearsal::ShopYear shop;
  shop.isolated = {0.75, 60};
  shop.powered_at_rest = {0.25, 20};
  shop.labour_per_hour = 60;
  rehearsal::Machine machine{"", "lathe", {}, {}, {}, 80, {}};
  for (const double hours : hours_a_day) {
    machine.counters.push_back(fmt::format("c{}", machine.counters.size()));
    machine.use.push_back({{hours, hours, hours, hours, hours, hours / 3, 0}, 0.3});
  }
  for (std::size_t n = 0; n < tasks_each; ++n) {
    rehearsal::Task task = draw_task(random, n, machine.counters[n % machine.counters.size()]);
    if (n < parts_each) {
      const double length = task.intervals[0].length;
      shop.lives.push_back({task.key, {{{random.between(1, 4), length * random.between(1, 3)}, 1}}});
      task.part = rehearsal::Part{*task.intervals[0].counter, task.key, task.intervals[0].used, 900, 4};
    }
    machine.tasks.push_back(std::move(task));
  }
  for (std::size_t n = 0; n < machines; ++n) {
    machine.key = fmt::format("m{}", n);
    shop.machines.push_back(machine);
  }
  return shop;
}

void print_shop(const rehearsal::ShopYear& shop) {
  const rehearsal::Machine& machine = shop.machines[0];
  fmt::print("{{\"machines\":{},\"days\":{},\"hours\":[{}],\"tasks\":[", machines, shop.days,
             fmt::join(hours_a_day, ","));
  for (std::size_t n = 0; n < machine.tasks.size(); ++n) {
    const rehearsal::Task& task = machine.tasks[n];
    fmt::print("{}{{\"counter\":{},\"minutes\":{},\"energy\":{},\"cost\":{},\"intervals\":[", n > 0 ? "," : "",
               n % hours_a_day.size(), task.minutes, static_cast<int>(task.energy), task.planned_cost);
    for (const auto& one : task.intervals) {
      fmt::print("{}[{},{},{},{}]", &one == task.intervals.data() ? "" : ",", one.counter ? 1 : 0, one.length,
                 one.heads_up, one.used);
    }
    const life::Weibull life = task.part ? shop.lives[n].believed[0].life : life::Weibull{1, 0};
    fmt::print("],\"shape\":{},\"scale\":{}}}", life.shape, life.scale);
  }
  fmt::print("]}}\n");
}

void measure(const rehearsal::ShopYear& shop) {
  const rehearsal::Playing playing(shop);
  rehearsal::YearDesk desk(playing);
  std::vector<rehearsal::Outcome> years(years_played);
  double best = 1e300;
  for (int round = 0; round < 5; ++round) {
    const std::clock_t begin = std::clock();
    playing.play({1, 0}, years, desk);
    best = std::min(best, static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC);
  }
  const rehearsal::OutcomeSpread spread = rehearsal::spread_of(years);
  fmt::print(
      "{{\"machines\":{},\"tasks\":{},\"years\":{},\"seconds\":{},\"failures\":[{},{}],\"stops\":[{},{}],"
      "\"tasks_done\":[{},{}],\"cost\":[{},{}]}}\n",
      machines, tasks_each, years_played, best, spread.failures.mean, spread.failures.se, spread.stops.mean,
      spread.stops.se, spread.tasks_done.mean, spread.tasks_done.se, spread.cost.mean, spread.cost.se);
}

}  // namespace

int main(int argc, char** argv) {
  const rehearsal::ShopYear shop = draw_shop();
  if (argc > 1 && std::strcmp(argv[1], "--shop") == 0) {
    print_shop(shop);
  } else {
    measure(shop);
  }
  return 0;
}
