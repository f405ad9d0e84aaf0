#include "src/terminal/due_command.h"

#include <memory>
#include <vector>

#include <CLI/CLI.hpp>

#include "libs/formats/byte_source.h"
#include "libs/formats/line_reader.h"
#include "src/terminal/due_backtest.h"
#include "src/terminal/due_case.h"

namespace hw::terminal {
namespace {

constexpr std::size_t line_bytes_max = 16 << 20;

bool is_blank(std::string_view line) { return line.find_first_not_of(" \t\r") == std::string_view::npos; }

// Every line is answered, also where another one is no case; then the exit status says so.
Answer due_cases(const std::string& file, bool is_json) {
  HW_TAKE(source, formats::open_file(file));
  formats::LineReader lines(*source, line_bytes_max);
  Said said{is_json ? "" : print_due_heading()};
  for (std::string_view line; lines.next(line);) {
    if (is_blank(line)) continue;
    const DueAnswer answer = answer_due(line, lines.line_number());
    said.text += is_json ? print_due_json(answer) : print_due_table(answer);
    said.is_as_it_should_be = said.is_as_it_should_be && answer.is_a_case;
  }
  HW_TRY(lines.outcome());
  return said;
}

void add_backtest(CLI::App& due_command, Answer& answer) {
  const auto call = std::make_shared<BacktestCall>();
  CLI::App* command = due_command.add_subcommand("backtest", "How good forecasts at past days would have been");
  command->add_option("--horizons", call->options.horizons_days, "about how many days ahead, as 3,10,30")
      ->delimiter(',')
      ->check(CLI::Range(1, 3650));
  command->add_option("--step", call->options.step_days, "days from one forecast to the next")
      ->check(CLI::Range(1, 3650));
  command->add_option("--zone", call->zone, "where days are cut for counter readings, as Europe/Berlin; else UTC");
  command->add_option("--plot", call->plot, "write a drawing (SVG) to this file");
  command->add_flag("--json", call->is_json, "print JSON");
  command->add_option("file", call->files, "tables: date and use per day, or counter, read_at and value")->required();
  command->callback([call, &answer] { answer = due_backtest(*call); });
}

}  // namespace

void add_due_command(CLI::App& app, const Entrances&, Answer& answer) {
  struct Options {
    std::string file;
    bool is_json = false;
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("due", "Says on which dates use will have reached an amount, and how sure");
  command->add_flag("--json", options->is_json, "print JSON");
  command->add_option("file", options->file, "cases, one JSON object a line; - reads standard input");
  add_backtest(*command, answer);
  command->require_subcommand(0, 1);
  command->callback([command, options, &answer] {
    if (!command->get_subcommands().empty()) return;
    answer = options->file.empty() ? Answer(refuse(ErrorCode::wrong_usage, "due: a file with cases is needed, or -"))
                                   : due_cases(options->file, options->is_json);
  });
}

}  // namespace hw::terminal
