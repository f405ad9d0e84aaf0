#include "src/terminal/kits_command.h"

#include <memory>

#include <CLI/CLI.hpp>

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

}  // namespace

void add_kits_command(CLI::App& app, const Entrances&, Answer& answer) {
  CLI::App* kits = app.add_subcommand("kits", "Says what stock of parts to have");
  kits->require_subcommand(1);
  add_stock(*kits, answer);
}

}  // namespace hw::terminal
