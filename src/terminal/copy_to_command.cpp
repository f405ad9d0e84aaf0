#include "src/terminal/copy_to_command.h"

#include <memory>

#include <CLI/CLI.hpp>

#include "libs/formats/json.h"

namespace hw::terminal {
namespace {

using copies::MoveReport;

std::string text_of(const MoveReport& report) {
  std::int64_t rows = 0;
  for (const auto& table : report.tables) rows += table.rows;
  std::string text = fmt::format(
      "{}: {} is in the database now, under its key {}: {} rows of {} tables, {} entries, head {}\n"
      "Both sides have the same rows: SHA-256 {}\n",
      report.data, report.plant, report.key, rows, report.tables.size(), report.entries, report.head, report.sha256);
  if (report.grants > 0)
    text += fmt::format("{} links and tokens that nobody has used yet went along\n", report.grants);
  if (report.breaks > 0) {
    text += fmt::format(
        "The logbook was not as it was written before: {} breaks; it was copied as it is. See hourwright logbook "
        "verify.\n",
        report.breaks);
  }
  return text + fmt::format(
                    "Serve it as before: hourwright serve --data {}\n"
                    "The file is kept as {} and is not used any more; remove it once there are good copies.\n",
                    report.data, report.kept_file);
}

Answer copy_to(const Entrances& entrances, const CopyToCall& call, bool is_json) {
  HW_TAKE(report, entrances.move_to_server(call));
  return Said{is_json ? formats::print_json(report) + "\n" : text_of(report), report.breaks == 0};
}

}  // namespace

void add_copy_to_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  const auto call = std::make_shared<CopyToCall>();
  const auto is_json = std::make_shared<bool>(false);
  CLI::App* command = app.add_subcommand("copy-to", "Moves a shop from its file into a PostgreSQL database, for good");
  command->add_option("--data", call->data, "the shop's data folder; its server must not run")
      ->required()
      ->type_name("DIR");
  command->add_option("--database", call->database, "the database's address, noted in DIR")
      ->required()
      ->type_name("postgresql://HOST/DATABASE");
  command->add_flag("--json", *is_json, "print JSON");
  command->callback([=, &entrances, &answer] { answer = copy_to(entrances, *call, *is_json); });
}

}  // namespace hw::terminal
