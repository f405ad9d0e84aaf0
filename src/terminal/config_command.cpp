#include "src/terminal/config_command.h"

#include <cstdlib>
#include <memory>

#include <boost/describe/class.hpp>
#include <fmt/ranges.h>

#include "libs/formats/json.h"
#include "src/terminal/commands_in.h"
#include "src/terminal/environment.h"
#include "src/terminal/settings.h"

namespace hw::terminal {
namespace {

struct SettingView {
  std::string setting;
  std::vector<std::string> values;
  std::string origin;
};
BOOST_DESCRIBE_STRUCT(SettingView, (), (setting, values, origin))

struct SettingsView {
  std::string server;
  std::vector<SettingView> settings;
};
BOOST_DESCRIBE_STRUCT(SettingsView, (), (server, settings))

struct ConfigCall {
  std::string server = "serve";
  std::string config;
  bool origin = false;
  bool json = false;
};

// An address of a database may have a password in it.
std::string without_password(std::string value) {
  const auto scheme = value.find("://");
  if (scheme == std::string::npos) return value;
  const auto at = value.find('@', scheme), colon = value.find(':', scheme + 3);
  const bool has_password = at != std::string::npos && colon != std::string::npos && colon < at;
  return has_password ? value.substr(0, colon) + ":..." + value.substr(at) : value;
}

std::string line_of(const SettingView& setting, bool with_origin) {
  std::vector<std::string> quoted;
  for (const std::string& value : setting.values) quoted.push_back("\"" + value + "\"");
  const std::string values = quoted.size() == 1 ? quoted.front() : fmt::format("[{}]", fmt::join(quoted, ", "));
  const std::string line = fmt::format("{} = {}", setting.setting, values);
  return with_origin ? fmt::format("{:<50} # {}\n", line, setting.origin) : line + "\n";
}

Answer show(const CLI::App& app, const ConfigCall& call) {
  const CLI::App* command = find_command(app, call.server);
  std::vector<std::string> words;
  if (!call.config.empty()) words = {"--config", call.config};
  HW_TAKE(settings, settings_of(*command, words, variable));
  SettingsView view{call.server, {}};
  for (const std::string& name : settings_in(*command)) {
    const auto at = settings.find(name);
    if (at == settings.end()) continue;
    SettingView one{name, {}, at->second.origin};
    for (const std::string& value : at->second.values) one.values.push_back(without_password(value));
    view.settings.push_back(std::move(one));
  }
  if (call.json) return formats::print_json(view) + "\n";
  std::string text;
  for (const SettingView& one : view.settings) text += line_of(one, call.origin);
  return text;
}

}  // namespace

void add_config_command(CLI::App& app, const Entrances&, Answer& answer) {
  CLI::App* command = app.add_subcommand("config", "The settings of a server");
  command->require_subcommand(1);
  CLI::App* shown = command->add_subcommand("show", "What they are, from the file, the environment and by themselves");
  const auto call = std::make_shared<ConfigCall>();
  shown->add_option("server", call->server, "serve or edge")
      ->check(CLI::IsMember({"serve", "edge"}))
      ->capture_default_str();
  shown->add_option("--config", call->config, "the file of settings in place of the usual one")->type_name("FILE");
  shown->add_flag("--origin", call->origin, "also where each comes from");
  shown->add_flag("--json", call->json, "JSON instead of text");
  shown->callback([&app, &answer, call] { answer = show(app, *call); });
}

}  // namespace hw::terminal
