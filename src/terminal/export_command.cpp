#include "src/terminal/export_command.h"

#include <memory>

#include <CLI/CLI.hpp>

#include "libs/formats/json.h"
#include "src/terminal/data_folder.h"

namespace hw::terminal {
namespace {

Answer say(const Result<copies::ExportReport>& report, bool is_json, const std::string& more) {
  if (!report) return refuse(report.error());
  if (is_json) return formats::print_json(*report) + "\n";
  const copies::ExportHead& head = report->head;
  std::int64_t rows = 0;
  for (const auto& table : head.tables) rows += table.rows;
  return fmt::format("{}: {} (key {}), {} rows of {} tables, {} photos, SHA-256 {}\n{}", report->folder, head.name,
                     head.plant, rows, head.tables.size(), report->photos, head.sha256, more);
}

}  // namespace

void add_export_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  const auto call = std::make_shared<ExportCall>();
  const auto is_json = std::make_shared<bool>(false);
  CLI::App* command =
      app.add_subcommand("export", "Writes a shop's record as open files, beside its running server too");
  command->add_option("FOLDER", call->folder, "where to; new or empty")->required();
  add_data_option(*command, call->data);
  command->add_flag("--json", *is_json, "print JSON");
  command->callback([=, &entrances, &answer] {
    answer = say(entrances.export_shop(*call), *is_json,
                 "Every row is in tables/ as JSON Lines, and in sheets/ for spreadsheets; hourwright.json says what is "
                 "there. It holds the hashes of people's passwords: keep it where only you can read it.\n");
  });
}

void add_import_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  const auto call = std::make_shared<ExportCall>();
  const auto is_json = std::make_shared<bool>(false);
  CLI::App* command = app.add_subcommand("import", "Makes a shop of the open files that export wrote");
  command->add_option("FOLDER", call->folder, "the folder with hourwright.json")->required();
  command->add_option("--data", call->data, "the shop's data folder; new or empty")->required()->type_name("DIR");
  command->add_flag("--json", *is_json, "print JSON");
  command->callback([=, &entrances, &answer] {
    answer = say(
        entrances.import_shop(*call), *is_json,
        fmt::format("All of it is in {0}, with the same SHA-256. Serve it: hourwright serve --data {0}\n", call->data));
  });
}

}  // namespace hw::terminal
