#include "src/terminal/hours_command.h"

#include <map>
#include <memory>
#include <vector>

#include <CLI/CLI.hpp>

#include "src/counters/count_run.h"
#include "src/feeds/device_model.h"
#include "src/feeds/file_run.h"
#include "src/terminal/hours_report.h"

namespace hw::terminal {
namespace {

using counters::CountSettings;
using counters::MachineModel;
using counters::Source;
using counters::Window;

struct HoursOptions {
  std::string devices, device, from, to, zone;
  std::vector<std::string> aliases, files;
  std::optional<double> load_above;
  bool by_day = false;
  bool json = false;
};

Result<Window> window_of(const HoursOptions& options) {
  Window window;
  for (const auto& [name, text, end] :
       {std::tuple("--from", &options.from, &window.from), std::tuple("--to", &options.to, &window.to)}) {
    if (text->empty()) continue;
    const auto instant = parse_instant(*text);
    if (!instant) return refuse(ErrorCode::wrong_usage, "{}: {}", name, instant.error().message);
    *end = *instant;
  }
  if (window.from && window.to && *window.from >= *window.to) {
    return refuse(ErrorCode::wrong_usage, "--from {} is not before --to {}", options.from, options.to);
  }
  return window;
}

Result<CountSettings> settings_of(const HoursOptions& options) {
  CountSettings settings;
  settings.load_above_percent = options.load_above;
  settings.by_day = options.by_day;
  if (options.zone.empty()) return settings;
  const auto zone = Zone::find(options.zone);
  if (!zone) return refuse(ErrorCode::wrong_usage, "--zone: {}", zone.error().message);
  settings.zone = *zone;
  return settings;
}

// EXECUTING=ACTIVE
Result<std::map<std::string, std::string, std::less<>>> aliases_of(const HoursOptions& options) {
  std::map<std::string, std::string, std::less<>> aliases;
  for (const std::string& alias : options.aliases) {
    const std::size_t equals = alias.find('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == alias.size()) {
      return refuse(ErrorCode::wrong_usage, "--alias {}: must be WORD=WORD, as in EXECUTING=ACTIVE", alias);
    }
    aliases[alias.substr(0, equals)] = alias.substr(equals + 1);
  }
  return aliases;
}

std::vector<Source> sources_of(const feeds::MachineRun& run) {
  std::vector<Source> sources;
  const Source all(run.observations);
  for (std::size_t n = 0; n < run.source_begins.size(); ++n) {
    const std::size_t end = n + 1 < run.source_begins.size() ? run.source_begins[n + 1] : all.size();
    sources.push_back(all.subspan(run.source_begins[n], end - run.source_begins[n]));
  }
  return sources;
}

// Values hold, but not beyond now: a recording of the past is not counted into the future. Where the recording itself
// is ahead of this computer's clock, the clock says nothing.
Window bounds_of(const Window& window, const feeds::SeenTimes& seen, Instant now) {
  const Instant to = window.to.value_or(seen.last);
  return {window.from.value_or(seen.first), to > now && seen.last <= now ? now : to};
}

// Every machine of which there are observations; the one that was asked for is the only one that was read.
Result<std::vector<MachineHours>> count_machines(const std::vector<MachineModel>& models, const feeds::FileRun& run,
                                                 const Window& window, const CountSettings& settings) {
  std::vector<MachineHours> machines;
  for (std::size_t n = 0; n < models.size(); ++n) {
    if (run.machines[n].observations.empty()) continue;
    const feeds::MachineRun& read = run.machines[n];
    auto report = count_run(models[n], sources_of(read), bounds_of(window, read.seen, now()), settings);
    if (!report) return refuse(report.error().at(models[n].name));
    machines.push_back({&models[n], std::move(*report), &run.machines[n]});
  }
  return machines;
}

Answer hours(const HoursOptions& options) {
  const auto window = window_of(options);
  if (!window) return refuse(window.error());
  const auto settings = settings_of(options);
  if (!settings) return refuse(settings.error());
  const auto aliases = aliases_of(options);
  if (!aliases) return refuse(aliases.error());
  const auto devices = feeds::read_devices_file(options.devices);
  if (!devices) return refuse(devices.error());
  const auto run = feeds::read_files(options.files, devices->machines, {options.device, *aliases});
  if (!run) return refuse(run.error());
  auto machines = count_machines(devices->machines, *run, *window, *settings);
  if (!machines) return refuse(machines.error());
  if (machines->empty()) {
    return refuse(ErrorCode::bad_input, "the files hold no observation that a counter of {} could use",
                  options.device.empty() ? options.devices : options.device);
  }
  const HoursReport report{std::move(*machines), run->notes,     run->observations,
                           run->bad_lines,       options.by_day, options.load_above};
  return options.json ? print_hours_json(report) : print_hours_tables(report);
}

}  // namespace

void add_hours_command(CLI::App& app, const Entrances&, Answer& answer) {
  const auto options = std::make_shared<HoursOptions>();
  CLI::App* command = app.add_subcommand("hours", "Counts the hours of MTConnect recordings");
  command->add_option("--devices", options->devices, "the device model, an MTConnectDevices document")->required();
  command->add_option("--device", options->device, "only this machine, by name or uuid");
  command->add_option("--from", options->from,
                      "begin of the window, as 2016-05-23T05:00:00Z; else the first time seen");
  command->add_option("--to", options->to, "end of the window; else the last time seen");
  command->add_option("--load-above", options->load_above, "a spindle with a load cuts only above so many percent");
  command->add_option("--alias", options->aliases, "WORD=WORD: another word for one of Execution's")->take_all();
  command->add_flag("--by-day", options->by_day, "each day's share as well");
  command->add_option("--zone", options->zone, "where days are cut, as Europe/Berlin; else UTC");
  command->add_flag("--json", options->json, "print JSON");
  command
      ->add_option("file", options->files,
                   "Streams documents, recorded responses, SHDR logs; plain, .gz or .xz; - reads standard input")
      ->required();
  command->callback([&answer, options] { answer = hours(*options); });
}

}  // namespace hw::terminal
