// How fast stops are planned: how far the bound and the plan of an instance are after so many seconds of a core, each
// by itself, and how long the estimate of one stop takes.   usage: plan_bench INSTANCE.json
//
// Prints one JSON object. One thread, its processor time. A plan of s seconds is made from nothing by that much planned
// work, as the search cools down over the time that it has; what its bound takes of it is in it.

#include <array>
#include <cstdio>
#include <ctime>
#include <fstream>
#include <iterator>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "src/plan/estimate_stop.h"
#include "src/plan/instance_file.h"
#include "src/plan/price_ascent.h"
#include "src/plan/propose.h"

namespace {

using namespace hw;

constexpr std::array<double, 5> stations{1, 2, 4, 8, 16};  // seconds of a core
constexpr int estimates = 20'000;

double processor_seconds() {
  timespec time{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
  return static_cast<double>(time.tv_sec) + 1e-9 * static_cast<double>(time.tv_nsec);
}

// The best bound at each station; where the ascent is settled before, it stays.
std::vector<double> bounds_of(const plan::Model& model) {
  plan::PriceAscent ascent(model, 1);
  std::vector<double> bounds;
  const double begin = processor_seconds();
  for (const double station : stations) {
    while (processor_seconds() - begin < station && !ascent.is_settled()) ascent.step();
    bounds.push_back(ascent.best_bound());
  }
  return bounds;
}

struct Made {
  double seconds = 0;
  double cost = 0;
};

Made plan_of_effort(const plan::Instance& instance, const plan::Model& model, double effort) {
  plan::ProposeOptions options;
  options.gap_target = 0;
  options.effort = effort;
  const double begin = processor_seconds();
  const plan::Proposal proposal = propose_stops(instance, model, options);
  return {processor_seconds() - begin, proposal.cost.total()};
}

// Microseconds of one estimate: a stop of all tasks of a machine, on one day after the other.
double estimate_us(const plan::Instance& instance) {
  std::vector<plan::StopTry> asked;
  for (const plan::Machine& machine : instance.machines) {
    asked.push_back({machine.id, {0, 0}, {}, {}});
    for (const plan::Task& task : machine.tasks) asked.back().tasks.push_back(task.id);
  }
  double sum = 0;
  const double begin = processor_seconds();
  for (int i = 0; i < estimates; ++i) {
    plan::StopTry& one = asked[static_cast<std::size_t>(i) % asked.size()];
    one.slot.day = i % instance.days;
    sum += estimate_stop(instance, one)->total();
  }
  const double took = processor_seconds() - begin;
  return sum > 0 ? took / estimates * 1e6 : 0;
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) {
    fmt::print(stderr, "usage: plan_bench INSTANCE.json\n");
    return 2;
  }
  std::ifstream file(words[1], std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  const auto instance = plan::parse_instance(text);
  if (!instance) {
    fmt::print(stderr, "{}: {}\n", words[1], instance.error().message);
    return 1;
  }
  const plan::Model model = plan::build_model(*instance);
  std::vector<double> seconds, costs;
  for (const double station : stations) {
    const Made made = plan_of_effort(*instance, model, station);
    seconds.push_back(made.seconds);
    costs.push_back(made.cost);
  }
  fmt::print(
      R"({{"machines":{},"days":{},"stations":[{}],"bounds":[{}],"plan_seconds":[{}],"costs":[{}],"estimate_us":{}}})"
      "\n",
      instance->machines.size(), instance->days, fmt::join(stations, ","), fmt::join(bounds_of(model), ","),
      fmt::join(seconds, ","), fmt::join(costs, ","), estimate_us(*instance));
  return 0;
}
