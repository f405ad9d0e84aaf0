#pragma once
// A plan: the stops of each machine with their tasks, and the work done while machines run. As plain values; the names
// are those of the file format `hourwright-stop-plan-1`.

#include <optional>
#include <string>
#include <vector>

#include "src/plan/instance.h"

namespace hw::plan {

struct Stop {
  std::string machine;  // its id, as all names here
  int day = 0;
  int shift = 0;
  EnergyState state = EnergyState::stopped;
  std::vector<std::string> tasks;
};
BOOST_DESCRIBE_STRUCT(Stop, (), (machine, day, shift, state, tasks))

struct RunningJob {
  std::string machine;
  int day = 0;
  int shift = 0;
  std::string task;
};
BOOST_DESCRIBE_STRUCT(RunningJob, (), (machine, day, shift, task))

struct StopPlan {
  std::string format = "hourwright-stop-plan-1";
  std::string instance;
  std::optional<double> claimed_cost;
  std::optional<double> claimed_bound;
  std::vector<Stop> stops;
  std::vector<RunningJob> running_jobs;
};
BOOST_DESCRIBE_STRUCT(StopPlan, (), (format, instance, claimed_cost, claimed_bound, stops, running_jobs))

// What a plan costs, by what it is paid for.
struct PlanCost {
  double stops = 0;  // set-up
  double lost_production = 0;
  double labour_premium = 0;
  double overtime = 0;
  double timing = 0;             // cycles ended early or late
  double end = 0;                // cycles still open at the horizon
  std::optional<double> moving;  // first executions elsewhere than agreed; empty where nothing is agreed
  std::optional<double> travel;  // crews' visits; empty where none travels

  double total() const {
    return stops + lost_production + labour_premium + overtime + timing + end + moving.value_or(0) + travel.value_or(0);
  }
};
BOOST_DESCRIBE_STRUCT(PlanCost, (), (stops, lost_production, labour_premium, overtime, timing, end, moving, travel))

struct PlanVerdict {
  PlanCost cost;
  std::vector<std::string> problems;  // each broken limit in one sentence; empty: the plan keeps all
};

// Recomputes everything from the definitions, without any of the planner's tables.
PlanVerdict evaluate_plan(const Instance& instance, const StopPlan& plan);

}  // namespace hw::plan
