#include "src/terminal/rebuild_command.h"

#include <algorithm>
#include <memory>

#include <CLI/CLI.hpp>

#include "libs/formats/json.h"
#include "src/terminal/data_folder.h"

namespace hw::terminal {
namespace {

Answer rebuild(const Entrances& entrances, const std::string& data, bool is_json) {
  HW_TAKE(report, entrances.rebuild(data));
  const bool is_equal =
      std::all_of(report.parts.begin(), report.parts.end(), [](const auto& part) { return part.differences.empty(); });
  return Said{is_json ? formats::print_json(report) + "\n" : rebuild_text(report), is_equal};
}

}  // namespace

std::string rebuild_text(const service::RebuildReport& report) {
  std::string text;
  for (const auto& part : report.parts) {
    const bool is_equal = part.differences.empty();
    text += fmt::format("From {} {}: {}\n  before {}\n  after  {}\n", part.read, part.name,
                        is_equal ? "equal, nothing was changed" : "not equal, made again", part.before, part.after);
    for (const std::string& one : part.differences) text += fmt::format("  {}\n", one);
    for (const std::string& one : part.kept) text += fmt::format("  {}\n", one);
  }
  return text;
}

void add_rebuild_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  struct Options {
    std::string data;
    bool json = false;
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(
      "rebuild", "Makes what follows from entries and observations again, and says whether it differs");
  add_data_option(*command, options->data);
  command->add_flag("--json", options->json, "print JSON");
  command->callback([options, &entrances, &answer] { answer = rebuild(entrances, options->data, options->json); });
}

}  // namespace hw::terminal
