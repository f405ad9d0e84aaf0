#include "src/terminal/backup_command.h"

#include <memory>

#include <CLI/CLI.hpp>

#include "libs/formats/json.h"
#include "src/terminal/data_folder.h"

namespace hw::terminal {
namespace {

using copies::CopyReport;

struct CopyOptions {
  BackupCall backup;
  RestoreCall restore;
  std::string checked;
  bool json = false;
};

std::string mb_of(std::uint64_t bytes) { return fmt::format("{:.1f} MB", static_cast<double>(bytes) / 1e6); }

std::string content_of(const CopyReport& report) {
  const copies::CopyHead& copy = report.copy;
  std::string text =
      fmt::format("{}: {}, made {}, {} entries, head {}, tables of version {}, by Hourwright {}\n", report.file,
                  copy.plant, print(copy.made_at), copy.entries, copy.head, copy.schema, copy.program);
  for (const auto& file : copy.files) text += fmt::format("  {}, {}\n", file.name, mb_of(file.bytes));
  if (copy.breaks > 0) {
    text += fmt::format(
        "The logbook was not as it was written when the copy was made: {} breaks; it was copied as it "
        "is. See hourwright logbook verify.\n",
        copy.breaks);
  }
  return text;
}

// A copy of a logbook that was altered is a whole copy, but nothing to be content with.
Answer say(const Result<CopyReport>& report, bool is_json, const std::string& more) {
  if (!report) return refuse(report.error());
  const bool is_unbroken = report->copy.breaks == 0;
  if (is_json) return Said{formats::print_json(*report) + "\n", is_unbroken};
  return Said{content_of(*report) + more, is_unbroken};
}

Answer make(const Entrances& entrances, const CopyOptions& options) {
  if (options.backup.file.empty()) return refuse(ErrorCode::wrong_usage, "backup: name the file that the copy goes to");
  return say(
      entrances.make_copy(options.backup), options.json,
      "The copy was unpacked again and is good. It holds the shop's keys and secrets: keep it where only you can "
      "read it, and one of them outside the house.\n");
}

Answer restore(const Entrances& entrances, const CopyOptions& options) {
  const std::string& data = options.restore.data;
  return say(entrances.restore_copy(options.restore), options.json,
             fmt::format("Restored to {0}. Serve it: hourwright serve --data {0}\n"
                         "Counting goes on from the copy's moment: what the machines' agents still have is asked for, "
                         "what they no longer have is unknown time. What people entered since is not in it; phones "
                         "send again what they had not yet been able to send. Devices that have joined, and the "
                         "certificate, are those of the copy.\n",
                         data));
}

}  // namespace

void add_backup_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  const auto options = std::make_shared<CopyOptions>();
  CLI::App* command = app.add_subcommand("backup", "Makes a checked copy of a shop, beside its running server too");
  command->add_option("FILE", options->backup.file, "the file that the copy goes to; it must not be there");
  add_data_option(*command, options->backup.data);
  command->add_flag("--json", options->json, "print JSON");
  CLI::App* checking = command->add_subcommand("verify", "Says whether a copy is good");
  checking->add_option("FILE", options->checked, "the copy")->required();
  checking->add_flag("--json", options->json, "print JSON");
  checking->callback([options, &entrances, &answer] {
    answer = say(entrances.check_copy(options->checked), options->json, "The copy is good.\n");
  });
  command->callback([options, checking, &entrances, &answer] {
    if (!checking->parsed()) answer = make(entrances, *options);
  });
}

void add_restore_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  const auto options = std::make_shared<CopyOptions>();
  CLI::App* command = app.add_subcommand("restore", "Restores a copy into a folder that is new or empty");
  command->add_option("FILE", options->restore.file, "the copy")->required();
  command->add_option("--data", options->restore.data, "the data folder, new or empty")->required()->type_name("DIR");
  command->add_flag("--json", options->json, "print JSON");
  command->callback([options, &entrances, &answer] { answer = restore(entrances, *options); });
}

}  // namespace hw::terminal
