#include "src/terminal/kits_command.h"

#include <memory>

#include <CLI/CLI.hpp>

#include "src/terminal/kits_simulate.h"
#include "src/terminal/kits_stock.h"

namespace hw::terminal {
namespace {

void add_stock(CLI::App& kits, Answer& answer) {
  struct Options {
    std::string file;
    bool is_json = false;
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command =
      kits.add_subcommand("stock", "How many of a part to have: levels for a wanted chance, or at least cost");
  command->add_flag("--json", options->is_json, "print JSON");
  command
      ->add_option("file", options->file,
                   "one JSON object, a list of them, or {\"cases\": [...]}; - reads standard input")
      ->required();
  command->callback([options, &answer] { answer = answer_cases(options->file, {stock_case, options->is_json}); });
}

void add_simulate(CLI::App& kits, Answer& answer) {
  const auto call = std::make_shared<KitsSimulateCall>();
  CLI::App* command =
      kits.add_subcommand("simulate", "Plays years of invented stores under the proposed orders and two usual rules");
  command->add_option("--seed", call->seed, "the beginning of chance")->capture_default_str();
  command->add_option("--years", call->years, "years that count")->check(CLI::Range(2, 50))->capture_default_str();
  command->add_option("--kinds", call->kinds, "kinds of machines: four machines and 15 parts each")
      ->check(CLI::Range(1, 20))
      ->capture_default_str();
  command->add_option("--wanted", call->wanted, "the chance with which each need is to be met from stock")
      ->check(CLI::Range(0.5, 0.999))
      ->capture_default_str();
  command->add_flag("--json", call->is_json, "print JSON");
  command->callback([call, &answer] { answer = simulate_kits(*call); });
}

}  // namespace

void add_kits_command(CLI::App& app, const Entrances&, Answer& answer) {
  CLI::App* kits = app.add_subcommand("kits", "Says what stock of parts to have, and how rules of ordering do");
  kits->require_subcommand(1);
  add_stock(*kits, answer);
  add_simulate(*kits, answer);
}

}  // namespace hw::terminal
