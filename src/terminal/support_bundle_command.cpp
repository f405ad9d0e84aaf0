#include "src/terminal/support_bundle_command.h"

#include <map>
#include <memory>

#include <CLI/CLI.hpp>
#include <sys/utsname.h>

#include "libs/formats/json.h"
#include "libs/formats/new_file.h"
#include "libs/formats/zip_making.h"
#include "src/service/version.h"
#include "src/terminal/data_folder.h"
#include "src/terminal/doctor_command.h"

namespace hw::terminal {
namespace {

struct VersionsSaid {
  std::string program;
  int tables = 0;
  std::string system;
  Instant made_at;
};
BOOST_DESCRIBE_STRUCT(VersionsSaid, (), (program, tables, system, made_at))

// Numbers and choices; no names, no addresses, no money.
struct SettingsSaid {
  std::string zone;
  std::size_t shifts = 0;
  std::size_t closed_days = 0;
  std::size_t people = 0;
  std::map<std::string, int> machines_by_kind;
  std::size_t feeds = 0;
};
BOOST_DESCRIBE_STRUCT(SettingsSaid, (), (zone, shifts, closed_days, people, machines_by_kind, feeds))

std::string system_text() {
  utsname about{};
  if (::uname(&about) != 0) return "not known";
  return fmt::format("{} {} {}", about.sysname, about.release, about.machine);  // not the computer's own name
}

SettingsSaid settings_of(const service::ShopWithMachines& all) {
  const auto& calendar = all.shop.calendar;
  SettingsSaid said{calendar.zone.name(), calendar.shifts.size(), calendar.closed.size(), all.shop.people.size(), {},
                    all.shop.feeds.size()};
  for (const auto& machine : all.machines) ++said.machines_by_kind[machine.machine.kind];
  return said;
}

// A sentence may name a person, a path or a row's text; the names of checks and their results do not.
std::vector<service::Check> without_details(std::vector<service::Check> checks) {
  for (auto& check : checks)
    check.detail = check.result == "pass" ? "" : "see hourwright doctor on the computer itself";
  return checks;
}

Answer make(const Entrances& entrances, const SupportCall& call) {
  HW_TAKE(out, formats::NewFile::begin(call.file));
  const service::Examined examined = entrances.examine(call.data);
  const DoctorSaid doctor = look_over({call.data, "127.0.0.1:8470", {}}, examined, now());
  const VersionsSaid versions{service::program_version, examined.schema, system_text(), now()};
  std::vector<formats::ZipText> texts = {
      {"versions.json", formats::print_json(versions) + "\n"},
      {"doctor.json", formats::print_json(DoctorSaid{doctor.well, without_details(doctor.checks)}) + "\n"},
      {"tables.json", formats::print_json(examined.tables) + "\n"},
      {"schema.sql", examined.schema_text}};
  if (examined.shop) texts.push_back({"settings.json", formats::print_json(settings_of(*examined.shop)) + "\n"});
  HW_TAKE(archive, formats::make_zip(texts));
  HW_TRY(out.add(archive));
  HW_TRY(out.close());
  HW_TRY(out.keep());
  std::string text =
      fmt::format("{}: {} bytes. Look into it before you send it; it holds:\n", call.file, archive.size());
  for (const auto& one : texts) text += fmt::format("  {}\n", one.name);
  return Said{text};
}

}  // namespace

void add_support_bundle_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  const auto call = std::make_shared<SupportCall>();
  CLI::App* command = app.add_subcommand(
      "support-bundle",
      "Writes an archive for somebody who helps: versions, checks, sizes; no names, texts or secrets");
  command->add_option("FILE", call->file, "the archive, ZIP; it must not be there")->required();
  add_data_option(*command, call->data);
  command->callback([call, &entrances, &answer] { answer = make(entrances, *call); });
}

}  // namespace hw::terminal
