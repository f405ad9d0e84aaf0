#include "src/terminal/doctor_command.h"

#include <algorithm>
#include <memory>

#include <CLI/CLI.hpp>

#include "libs/formats/json.h"
#include "src/terminal/data_folder.h"

namespace hw::terminal {
namespace {

std::string doctor_text(const DoctorSaid& said) {
  std::string text;
  int warnings = 0, failures = 0;
  for (const auto& check : said.checks) {
    text += fmt::format("{}  {}: {}\n", check.result, check.name, check.detail);
    warnings += check.result == "warn";
    failures += check.result == "fail";
  }
  return text + fmt::format("{} checks, {} to look at, {} failed\n", said.checks.size(), warnings, failures);
}

}  // namespace

DoctorSaid look_over(const DoctorCall& call, const service::Examined& examined, Instant now) {
  DoctorSaid said;
  said.checks = examined.checks;
  const auto add = [&](const std::vector<service::Check>& more) {
    said.checks.insert(said.checks.end(), more.begin(), more.end());
  };
  add({share_check(), zone_check(examined.shop)});
  if (const auto certificate = certificate_check(call.data, now)) add({*certificate});
  add({copies_check(call, now)});
  add(server_checks(call));
  if (examined.shop) add(feed_checks(*examined.shop));
  said.well =
      std::none_of(said.checks.begin(), said.checks.end(), [](const auto& one) { return one.result == "fail"; });
  return said;
}

void add_doctor_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  struct Options {
    DoctorCall call;
    bool json = false;
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("doctor", "Looks whether all is well, and says what to do where it is not");
  add_data_option(*command, options->call.data);
  command->add_option("--listen", options->call.listen, "where the server is, or is to be")
      ->type_name("ADDR:PORT")
      ->capture_default_str();
  command->add_option("--copies", options->call.copies, "the folder of the nightly copies")->type_name("DIR");
  command->add_flag("--json", options->json, "print JSON");
  command->callback([options, &entrances, &answer] {
    const DoctorSaid said = look_over(options->call, entrances.examine(options->call.data), now());
    answer = Said{options->json ? formats::print_json(said) + "\n" : doctor_text(said), said.well};
  });
}

}  // namespace hw::terminal
