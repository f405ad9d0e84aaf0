#include "src/terminal/logbook_command.h"

#include <algorithm>
#include <memory>

#include <CLI/CLI.hpp>

#include "libs/formats/json.h"
#include "src/terminal/data_folder.h"

namespace hw::terminal {
namespace {

// The hash as it was printed: 64 hexadecimal digits, in small letters.
std::string check_noted(const std::string& noted) {
  const bool is_hash = noted.size() == 64 && noted.find_first_not_of("0123456789abcdef") == std::string::npos;
  return is_hash ? "" : "it is no hash: 64 digits of 0-9 and a-f, as `logbook verify` prints it";
}

Answer verify(const Entrances& entrances, const VerifyCall& call, bool is_json) {
  HW_TAKE(verdict, entrances.verify(call));
  return Said{is_json ? verdict_json(verdict) : verdict_text(verdict), verdict.breaks.empty()};
}

}  // namespace

std::string verdict_text(const record::Verdict& verdict) {
  std::string text;
  if (verdict.breaks.empty()) text = fmt::format("{} entries, unbroken, head {}\n", verdict.entries, verdict.head);
  for (const auto& one : verdict.breaks) text += one.says + "\n";
  for (const auto& one : verdict.photos_awaited) {
    text += fmt::format("photo {} of entry {} is not here; it may still come from a phone\n", one.photo, one.entry);
  }
  return text;
}

std::string verdict_json(const record::Verdict& verdict) { return formats::print_json(verdict) + "\n"; }

void add_logbook_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  struct Options {
    VerifyCall call;
    bool json = false;
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("logbook", "Looks after the record of what was done, read and found");
  command->require_subcommand(1);
  CLI::App* verifying = command->add_subcommand("verify", "Says whether every entry is as it was written");
  add_data_option(*verifying, options->call.data);
  verifying->add_option("--noted", options->call.noted, "a head's hash that was noted once; an entry has to have it")
      ->type_name("HASH")
      ->check(check_noted);
  verifying->add_flag("--json", options->json, "print JSON");
  verifying->callback([options, &entrances, &answer] { answer = verify(entrances, options->call, options->json); });
}

}  // namespace hw::terminal
