#include "src/terminal/condition_command.h"

#include <map>
#include <memory>

#include <CLI/CLI.hpp>

#include "src/terminal/condition_answers.h"

namespace hw::terminal {
namespace {

using Call = std::shared_ptr<ConditionCall>;

// What the numerics refuse names the field; the file comes in front of it.
Answer with_file(const ConditionCall& call, Answer answer) {
  if (answer || answer.error().code == ErrorCode::wrong_usage || call.file.empty()) return answer;
  const std::string name = call.file == "-" ? "standard input" : call.file;
  return answer.error().message.starts_with(name) ? answer : Answer(refuse(answer.error().at(name)));
}

struct Subcommand {
  CLI::App* app;
  Call call;
};

Subcommand add_one(CLI::App& condition, Answer& answer, const char* name, const char* about,
                   Answer (*said)(const ConditionCall&)) {
  const Call call = std::make_shared<ConditionCall>();
  CLI::App* command = condition.add_subcommand(name, about);
  command->add_flag("--json", call->is_json, "print JSON");
  command->callback([call, said, &answer] { answer = with_file(*call, said(*call)); });
  return {command, call};
}

CLI::Option* add_table(const Subcommand& command, const char* columns) {
  return command.app->add_option("file", command.call->file, columns);
}

void add_charts(CLI::App& condition, Answer& answer) {
  const auto [chart, chart_call] =
      add_one(condition, answer, "chart", "Control charts of single values, subgroups, counts", chart_answer);
  chart->add_flag("--rules", chart_call->with_rules, "single values: look for runs and clusters too");
  chart->add_option("file", chart_call->file, "CSV: x, or c, or x1, x2 ..., or subgroup and x; - reads standard input")
      ->required();
  const Subcommand ewma =
      add_one(condition, answer, "ewma", "Moving averages that find small lasting shifts", ewma_answer);
  ewma.app->add_option("--lambda,--lam", ewma.call->lambda,
                       "the weight of the newest value; 0.2 where nothing is said");
  ewma.app->add_option("--L", ewma.call->L, "limits in standard deviations; 3 where nothing is said");
  const Subcommand cusum =
      add_one(condition, answer, "cusum", "Cumulative sums that find small lasting shifts", cusum_answer);
  cusum.app->add_option("--k", cusum.call->k, "slack, in the unit of x; half of sigma where nothing is said");
  cusum.app->add_option("--h", cusum.call->h, "decision limit, in the unit of x; 5 sigma where nothing is said");
  for (const Subcommand& one : {ewma, cusum}) {
    one.app->add_option("--target", one.call->target, "where x should be; its mean where nothing is said");
    one.app->add_option("--sigma", one.call->sigma, "of single values; by the moving range where nothing is said");
    one.app->add_option("--shift", one.call->shifts, "no file: run lengths at these shifts, in sigma")
        ->delimiter(',')
        ->allow_extra_args(false);
    add_table(one, "CSV with a column x; - reads standard input");
  }
}

void add_trends(CLI::App& condition, Answer& answer) {
  const char* columns = "CSV: x and y, or t and x, or date and y; - reads standard input";
  const Subcommand trend =
      add_one(condition, answer, "trend", "Whether readings rise or fall, and how fast", trend_answer);
  trend.app->add_flag("--origin", trend.call->through_origin, "a line through the origin");
  add_table(trend, columns)->required();
  const Subcommand crossing =
      add_one(condition, answer, "crossing", "When readings will reach a limit, and how sure that is", crossing_answer);
  crossing.app->add_option("--limit", crossing.call->limit, "the limit, in the readings' unit");
  crossing.app->add_option("--d", crossing.call->d, "no file: the distance to the limit");
  crossing.app->add_option("--nu", crossing.call->nu, "no file: the drift toward it per unit of time");
  crossing.app->add_option("--sigma", crossing.call->sigma, "no file: the scatter per square root of time");
  add_table(crossing, columns);
  for (const Subcommand& one : {trend, crossing}) {
    one.app->add_option("--conf", one.call->conf, "confidence of intervals; 0.95 where nothing is said");
    one.app->add_option("--at,--x0", one.call->at, "where to foretell; crossing: times after the last reading")
        ->delimiter(',')
        ->allow_extra_args(false);
  }
}

void add_rate(CLI::App& condition, Answer& answer) {
  const std::map<std::string, condition::Consumable> words = {{"way-oil", condition::Consumable::way_oil},
                                                              {"hydraulic-oil", condition::Consumable::hydraulic_oil},
                                                              {"coolant", condition::Consumable::coolant},
                                                              {"spindle-oil", condition::Consumable::spindle_oil},
                                                              {"other", condition::Consumable::other}};
  const Subcommand rate =
      add_one(condition, answer, "rate", "What is used up an hour, and whether that changes", rate_answer);
  rate.app->add_option("--of", rate.call->consumable, "way-oil, hydraulic-oil, coolant, spindle-oil or other")
      ->transform(CLI::CheckedTransformer(words));
  add_table(rate, "CSV: hours (of a counter, at each fill) and amount; - reads standard input")->required();
}

}  // namespace

void add_condition_command(CLI::App& app, const Entrances&, Answer& answer) {
  CLI::App* condition = app.add_subcommand("condition", "Charts, trends and crossings of readings from a table");
  condition->require_subcommand(1);
  add_charts(*condition, answer);
  add_trends(*condition, answer);
  add_rate(*condition, answer);
}

}  // namespace hw::terminal
