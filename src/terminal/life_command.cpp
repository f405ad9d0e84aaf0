#include "src/terminal/life_command.h"

#include <memory>
#include <type_traits>

#include <CLI/CLI.hpp>

#include "src/terminal/life_difference.h"
#include "src/terminal/life_fit.h"
#include "src/terminal/life_inspection.h"
#include "src/terminal/life_interval.h"
#include "src/terminal/life_mcf.h"
#include "src/terminal/life_survival.h"
#include "src/terminal/life_trend.h"

namespace hw::terminal {
namespace {

const CLI::Validator above_zero([](std::string& text) { return check_above_zero(text); }, "ABOVE 0", "above zero");

// A subcommand whose call is worked out by `work`; every one takes --json.
template <class Call>
struct Added {
  CLI::App* command;
  std::shared_ptr<Call> call;
};

template <class Call>
Added<Call> add_part(CLI::App& life, const char* name, const char* says, Answer (*work)(const Call&), Answer& answer) {
  Added<Call> added{life.add_subcommand(name, says), std::make_shared<Call>()};
  if constexpr (std::is_base_of_v<LifeOptions, Call>) {
    added.command->add_option("--conf", added.call->conf, "confidence of intervals")
        ->check(above_zero & CLI::Range(0.01, 0.999999))
        ->capture_default_str();
  }
  added.command->add_flag("--json", added.call->is_json, "print JSON");
  added.command->callback([call = added.call, work, &answer] { answer = answer_life(work(*call), call->is_json); });
  return added;
}

void add_fit(CLI::App& life, Answer& answer) {
  const auto [command, call] =
      add_part(life, "fit", "Which Weibull distribution lives have, and how well that is known", fit_life, answer);
  command->add_option("--b", call->share_percent, "the age by which so many percent have failed, beside B10")
      ->check(above_zero & CLI::Range(1e-6, 99.9999));
  command->add_option("--age", call->age, "the share still good at this age")->check(above_zero);
  command
      ->add_option("--shape", call->shape,
                   "take this shape as known: a lower bound for the scale, also without failures")
      ->check(above_zero);
  command->add_option("file", call->file, "lives: lower, upper, count [, entry]; - reads standard input")->required();
}

void add_survival(CLI::App& life, Answer& answer) {
  const auto [command, call] =
      add_part(life, "survival", "The share still good at each age, without a distribution", survive_life, answer);
  command->add_option("--interval", call->scale, "scale on which intervals are made")
      ->check(CLI::IsMember({"log-log", "log", "plain"}));
  command->add_option("file", call->file, "lives: lower, upper, count [, entry]; - reads standard input")->required();
}

void add_difference(CLI::App& life, Answer& answer) {
  const auto [command, call] =
      add_part(life, "difference", "Whether groups of parts last equally long", tell_difference, answer);
  command->add_option("file", call->file, "lives: group, lower, upper, count [, entry]; - reads standard input")
      ->required();
}

void add_interval(CLI::App& life, Answer& answer) {
  const auto [command, call] = add_part(life, "interval", "How often work on a part costs least", advise_life, answer);
  command->add_option("--shape", call->shape, "of the life, where it is known")->check(above_zero);
  command->add_option("--scale", call->scale, "of the life, where it is known")->check(above_zero);
  command->add_option("--planned", call->planned, "cost of a planned replacement or overhaul")
      ->check(above_zero)
      ->required();
  command->add_option("--failed", call->failed, "whole cost of a replacement, or repair, after a failure")
      ->check(above_zero)
      ->required();
  command
      ->add_option("--policy", call->policy, "replaced at an age, at fixed times, or overhauled with repairs between")
      ->check(CLI::IsMember({"age", "block", "overhaul"}));
  command->add_option("--now", call->now, "the interval so far: what moving it would save")->check(above_zero);
  command->add_option("file", call->file, "lives: lower, upper, count [, entry]; - reads standard input");
}

void add_trend(CLI::App& life, Answer& answer) {
  const auto [command, call] =
      add_part(life, "trend", "Whether a repaired machine fails ever more often, and its MTBF", judge_trend, answer);
  call->conf = 0.9;
  command->add_option("--until", call->until, "watched up to this time; else up to the last failure")
      ->check(above_zero);
  command->add_option("file", call->file, "failures: time [, machine] [, event]; - reads standard input")->required();
}

void add_mcf(CLI::App& life, Answer& answer) {
  const auto [command, call] =
      add_part(life, "mcf", "How many failures repaired machines have had on average by each age", count_life, answer);
  command->add_option("file", call->file, "failures: machine, age, end [, entry]; - reads standard input")->required();
}

void add_inspection(CLI::App& life, Answer& answer) {
  const auto [command, call] =
      add_part(life, "inspection", "How often to look for defects before they become breakdowns", inspect_life, answer);
  command->add_option("--rate", call->model.defect_rate, "defects that arise an hour")->check(above_zero)->required();
  command->add_option("--delay", call->model.delay_mean, "mean hours from when one can be seen to the breakdown")
      ->check(above_zero)
      ->required();
  command->add_option("--breakdown-down", call->model.breakdown_down, "hours down for a breakdown")
      ->check(above_zero)
      ->required();
  command->add_option("--inspection-down", call->model.inspection_down, "hours down for an inspection")
      ->check(above_zero)
      ->required();
  command->add_option("--every", call->every, "what this interval would do, too")->check(above_zero);
}

void add_test(CLI::App& life, Answer& answer) {
  const auto [command, call] =
      add_part(life, "test", "How often to test what fails without anybody noticing", test_life, answer);
  command->add_option("--shape", call->life.shape, "of the life")->check(above_zero)->required();
  command->add_option("--scale", call->life.scale, "of the life")->check(above_zero)->required();
  command->add_option("--every", call->every, "tested so often: in which share of the time it would not protect")
      ->check(above_zero);
  command->add_option("--share", call->share, "which interval keeps to this share of the time")
      ->check(above_zero & CLI::Range(1e-9, 0.999));
}

}  // namespace

void add_life_command(CLI::App& app, const Entrances&, Answer& answer) {
  CLI::App* life = app.add_subcommand("life", "Says what failures and replacements tell about lives of parts");
  life->require_subcommand(1);
  add_fit(*life, answer);
  add_survival(*life, answer);
  add_difference(*life, answer);
  add_interval(*life, answer);
  add_trend(*life, answer);
  add_mcf(*life, answer);
  add_inspection(*life, answer);
  add_test(*life, answer);
}

}  // namespace hw::terminal
