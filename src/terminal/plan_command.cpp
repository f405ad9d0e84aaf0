#include "src/terminal/plan_command.h"

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <memory>
#include <thread>

#include <CLI/CLI.hpp>

#include "libs/formats/byte_source.h"
#include "libs/values/whole_file.h"
#include "src/plan/habits.h"
#include "src/plan/instance_file.h"
#include "src/plan/obstacles.h"
#include "src/plan/propose.h"
#include "src/terminal/ending.h"
#include "src/terminal/plan_report.h"

namespace hw::terminal {

namespace {

constexpr double time_kept_share = 0.04;  // of the time, to write down what was found
constexpr double effort_share = 0.9;      // of the time that planned work may take; the clock ends it on slow computers
constexpr std::size_t obstacles_told = 3;

struct PlanCall {
  std::string instance;
  std::string out;
  double gap = 0.01;
  double time_s = 60;
  std::size_t threads = std::clamp<std::size_t>(std::thread::hardware_concurrency(), 1, 64);
  std::uint64_t seed = 1;
  bool is_json = false;
};

class Clock {
 public:
  double seconds() const { return std::chrono::duration<double>(std::chrono::steady_clock::now() - began_).count(); }

 private:
  std::chrono::steady_clock::time_point began_ = std::chrono::steady_clock::now();
};

PlanRules rules_of(const plan::Instance& instance, const plan::Model& model) {
  PlanRules rules;
  const auto cost = [&](plan::Habit habit, formats::OrNull<double>& into) {
    if (const auto found = plan::cost_of_habit(instance, model, habit)) into.emplace(*found);
  };
  cost(plan::Habit::due_day, rules.due_day);
  cost(plan::Habit::with_next_14_days, rules.with_next_14_days);
  cost(plan::Habit::monthly_service, rules.monthly_service);
  return rules;
}

Error no_plan(const plan::Instance& instance, const plan::Model& model, const plan::Proposal& proposal) {
  plan::Draft draft(model);
  draft.put_all(proposal.choice);
  std::vector<std::string> reasons;
  for (const plan::TaskAt at : proposal.without_place) {
    if (reasons.size() == obstacles_told) break;
    reasons.push_back(plan::explain_no_place(instance, draft, at));
  }
  return {ErrorCode::conflict, fmt::format("no plan that keeps all limits was found; {} tasks have no place: {}",
                                           proposal.without_place.size(), fmt::join(reasons, "; "))};
}

plan::ProposeOptions options_of(const PlanCall& call, const Clock& clock) {
  plan::ProposeOptions options;
  options.gap_target = call.gap;
  options.threads = call.threads;
  options.seed = call.seed;
  options.effort = call.time_s * effort_share;
  options.time_used = [&call, &clock] {
    return is_ending_asked() ? 1.0 : clock.seconds() / (call.time_s * (1 - time_kept_share));
  };
  return options;
}

// Known before the work begins, not after it.
Result<std::filesystem::path> target_of(const PlanCall& call) {
  std::error_code failed;
  const std::filesystem::path target = std::filesystem::absolute(call.out, failed);
  if (!failed && std::filesystem::is_directory(target.parent_path()) && !std::filesystem::is_directory(target)) {
    return target;
  }
  return refuse(ErrorCode::not_found, "--out {}: must be a file in a folder that is there", call.out);
}

Answer plan_stops(const PlanCall& call) {
  HW_TAKE(target, target_of(call));
  hold_ending_signals();  // asked to end, it writes the best plan so far
  const Clock clock;
  HW_TAKE(source, formats::open_file(call.instance));
  HW_TAKE(text, formats::read_all(*source, plan::instance_bytes_max));
  auto read = plan::parse_instance(text);
  if (!read) return refuse(read.error().at(call.instance));
  const plan::Instance& instance = *read;
  text = {};
  const plan::Model model = plan::build_model(instance);
  PlanReport report;
  report.rules = rules_of(instance, model);
  const plan::Proposal proposal = plan::propose_stops(instance, model, options_of(call, clock));
  if (!proposal.without_place.empty()) return refuse(no_plan(instance, model, proposal));
  HW_TRY(write_whole_file(target, plan::print_plan(proposal.plan), ReadableBy::everybody));
  report.cost = proposal.cost.total();
  report.bound = proposal.bound;
  report.gap = proposal.gap();
  report.stops = proposal.plan.stops.size();
  report.travel = proposal.cost.travel;
  report.seconds = clock.seconds();
  return Said(call.is_json ? print_json(report) : print_table(report));
}

}  // namespace

void add_plan_command(CLI::App& app, const Entrances&, Answer& answer) {
  const auto call = std::make_shared<PlanCall>();
  CLI::App* command = app.add_subcommand("plan", "Chooses the stops that cost least, and says how good they are");
  command->add_option("--out", call->out, "write the plan to this file")->required();
  command->add_option("--gap", call->gap, "enough when the plan costs at most this share more than the bound")
      ->check(CLI::Range(0.0, 1.0));
  command->add_option("--time", call->time_s, "seconds, at most")->check(CLI::Range(0.1, 1e6));
  command->add_option("--threads", call->threads, "threads to use")->check(CLI::Range(1, 64));
  command->add_option("--seed", call->seed, "the beginning of chance; another number searches other ways");
  command->add_flag("--json", call->is_json, "print JSON");
  command->add_option("file", call->instance, "the instance, plain or packed; - reads standard input")->required();
  command->callback([call, &answer] { answer = plan_stops(*call); });
}

}  // namespace hw::terminal
