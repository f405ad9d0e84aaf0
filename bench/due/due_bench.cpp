// How fast due days are forecast: from prepared histories, merely reading what a forecast reads, and a shop of 200
// machines with 40 tasks each from cold. Prints one JSON object; --models prints what due_numpy.py simulates instead.
//
// The histories are invented lives of all kinds (tests/due/use_regimes.h) of 60 days and more. One thread, its
// processor time, the best of five runs.

#include <algorithm>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <vector>

#include <fmt/format.h>

#include "src/due/level_mixture.h"
#include "src/due/standing.h"
#include "src/due/use_forecast.h"
#include "tests/due/use_regimes.h"

namespace {

using namespace hw;

constexpr std::size_t machines = 200;
constexpr std::size_t tasks_per_machine = 40;
constexpr int rounds = 25;  // so often each task is asked for in one run

double processor_seconds() {
  timespec time{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
  return static_cast<double>(time.tv_sec) + 1e-9 * static_cast<double>(time.tv_nsec);
}

template <class Work>
double best_of_five(Work work) {
  double best = 1e300;
  for (int run = 0; run < 5; ++run) {
    const double begin = processor_seconds();
    work();
    best = std::min(best, processor_seconds() - begin);
  }
  return best;
}

struct Shop {
  std::vector<due::UseHistory> histories;
  std::vector<double> lefts;  // tasks_per_machine for each
};

Shop make_shop() {
  Shop shop;
  for (std::uint64_t seed = 1; shop.histories.size() < machines; ++seed) {
    auto made = tests::make_case(tests::regimes[seed % tests::regimes.size()], seed);
    if (made.history.days.size() < 60) continue;
    double used = 0;
    for (const auto& day : made.history.days) used += day.used;
    const double per_day = used / static_cast<double>(made.history.days.size());
    for (std::size_t task = 0; task < tasks_per_machine; ++task) {
      shop.lefts.push_back(per_day * (1 + 9 * static_cast<double>(task)));
    }
    shop.histories.push_back(std::move(made.history));
  }
  return shop;
}

// What numpy needs to draw paths of the same model.
void print_models(const Shop& shop) {
  for (std::size_t n = 0; n < shop.histories.size(); ++n) {
    const auto past = due::arrange(shop.histories[n]);
    const auto forecast = due::UseForecast::prepare(shop.histories[n]);
    const auto& shares = forecast->working().weekdays.shares;
    const auto found = due::find_spells(*past, shares);
    const auto active = due::without_spells(*past, found.stands);
    double used = 0, sum = 0;
    for (std::size_t day = 0; day < active.days.size(); ++day) {
      if (!active.days[day].is_counted) continue;
      used += active.days[day].used;
      sum += shares[static_cast<std::size_t>(iso_weekday(active.first_on + static_cast<int>(day)) - 1)];
    }
    const double unit = used / sum;
    const auto levels = due::weigh_levels(due::blocks_of(active, shares, unit), {});
    const due::LevelBelief& best = levels.front().belief;
    fmt::print(
        "{{\"unit\":{},\"shares\":[{}],\"weekday\":{},\"mean\":{},\"mean_sd\":{},\"now\":{},\"noise\":{},"
        "\"memory\":{},\"wander\":{},\"stop\":{},\"end\":{},\"stands\":{},\"lefts\":[{}]}}\n",
        unit, fmt::join(shares, ","), iso_weekday(forecast->start()) - 1, best.mean[1], std::sqrt(best.spread[1][1]),
        best.mean[0], best.noise, best.hypothesis.memory_days,
        4 * best.hypothesis.unrest / best.hypothesis.memory_days * best.noise, found.belief.stops / found.belief.active,
        1 / found.belief.spell_mean(), found.belief.stands_now,
        fmt::join(shop.lefts.begin() + static_cast<std::ptrdiff_t>(n * tasks_per_machine),
                  shop.lefts.begin() + static_cast<std::ptrdiff_t>((n + 1) * tasks_per_machine), ","));
  }
}

std::vector<due::UseForecast> prepare_all(const Shop& shop) {
  std::vector<due::UseForecast> forecasts;
  for (const auto& history : shop.histories) forecasts.push_back(*due::UseForecast::prepare(history));
  return forecasts;
}

long ask_all(const std::vector<due::UseForecast>& forecasts, const Shop& shop, double factor) {
  long days = 0;
  for (std::size_t n = 0; n < shop.lefts.size(); ++n) {
    const auto due = forecasts[n / tasks_per_machine].due_days(shop.lefts[n] * factor);
    for (const auto& day : due) days += day ? day->days : 0;
  }
  return days;
}

void measure(const Shop& shop) {
  const auto forecasts = prepare_all(shop);
  long kept = 0;
  const double ask_s = best_of_five([&] {
    for (int round = 0; round < rounds; ++round) kept += ask_all(forecasts, shop, 1 + 0.001 * round);
  });
  double sum = 0;
  const double read_s = best_of_five([&] {
    for (int round = 0; round < rounds; ++round) {
      for (std::size_t n = 0; n < shop.lefts.size(); ++n) {
        sum += shop.lefts[n] * (forecasts[n / tasks_per_machine].never_used() ? 0 : 1 + 0.001 * round);
      }
    }
  });
  const double cold_s = best_of_five([&] { kept += ask_all(prepare_all(shop), shop, 1); });
  fmt::print("{{\"machines\":{},\"tasks\":{},\"asked\":{},\"ask_s\":{},\"read_s\":{},\"cold_s\":{},\"kept\":{}}}\n",
             machines, shop.lefts.size(), rounds * shop.lefts.size(), ask_s, read_s, cold_s, kept + (sum > 0 ? 1 : 0));
}

}  // namespace

int main(int argc, char** argv) {
  const Shop shop = make_shop();
  if (argc > 1 && std::strcmp(argv[1], "--models") == 0) {
    print_models(shop);
  } else {
    measure(shop);
  }
  return 0;
}
