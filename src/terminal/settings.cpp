#include "src/terminal/settings.h"

#include <algorithm>
#include <filesystem>

#include <fmt/ranges.h>
#include <toml++/toml.h>

#include "libs/values/whole_file.h"
#include "src/terminal/commands_in.h"

namespace hw::terminal {
namespace {

constexpr const char* config_option = "config";

bool is_flag(const CLI::Option& option) { return option.get_items_expected_max() == 0; }
bool is_many(const CLI::Option& option) { return option.get_items_expected_max() > 1; }

std::string place(const std::string& name, const toml::node& node) {
  return fmt::format("{}, line {}", name, node.source().begin.line);
}

std::optional<std::string> text_of(const toml::node& node) {
  if (const auto* text = node.as_string()) return text->get();
  if (const auto* whole = node.as_integer()) return fmt::format("{}", whole->get());
  if (const auto* number = node.as_floating_point()) return fmt::format("{}", number->get());
  if (const auto* flag = node.as_boolean()) return flag->get() ? "true" : "false";
  return std::nullopt;
}

Result<Setting> setting_of(const toml::node& node, const std::string& where) {
  Setting setting{{}, where};
  if (const auto* array = node.as_array()) {
    for (const toml::node& one : *array) {
      const auto* text = one.as_string();
      if (text == nullptr)
        return refuse(ErrorCode::bad_input, "{}: in an array texts are right: [\"a\", \"b\"]", where);
      setting.values.push_back(text->get());
    }
    return setting;
  }
  const auto text = text_of(node);
  if (!text)
    return refuse(ErrorCode::bad_input, "{}: a text, a number, true, false or an array of texts is right", where);
  setting.values.push_back(*text);
  return setting;
}

std::vector<std::string> between_commas(const std::string& text) {
  std::vector<std::string> parts;
  for (std::size_t begin = 0; begin <= text.size();) {
    const std::size_t end = std::min(text.find(',', begin), text.size());
    if (end > begin) parts.push_back(text.substr(begin, end - begin));
    begin = end + 1;
  }
  return parts;
}

// What stands behind --NAME in the words, or after its "=".
std::vector<std::string> said_of(const std::string& setting, const std::vector<std::string>& words) {
  std::vector<std::string> values;
  const std::string option = "--" + setting;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == option) values.push_back(i + 1 < words.size() ? words[i + 1] : "");
    if (words[i].starts_with(option + "=")) values.push_back(words[i].substr(option.size() + 1));
  }
  return values;
}

const CLI::Option* option_of(const CLI::App& command, const std::string& setting) {
  return command.get_option_no_throw("--" + setting);
}

}  // namespace

std::string variable_of(const std::string& setting) {
  std::string variable = "HOURWRIGHT_";
  for (const char one : setting) variable += one == '-' ? '_' : static_cast<char>(one >= 'a' ? one - 'a' + 'A' : one);
  return variable;
}

Result<Settings> parse_settings(const std::string& text, const std::string& name,
                                const std::vector<std::string>& known) {
  toml::table table;
  try {
    table = toml::parse(text, name);
  } catch (const toml::parse_error& wrong) {
    return refuse(ErrorCode::bad_input, "{}, line {}: {}", name, wrong.source().begin.line, wrong.description());
  }
  Settings settings;
  for (const auto& [key, node] : table) {
    const std::string setting{key.str()};
    if (std::find(known.begin(), known.end(), setting) == known.end()) {
      return refuse(ErrorCode::bad_input, "{}: there is no setting \"{}\"; there are {}", place(name, node), setting,
                    fmt::join(known, ", "));
    }
    HW_TAKE(read, setting_of(node, place(name, node)));
    settings[setting] = std::move(read);
  }
  return settings;
}

std::optional<std::string> settings_file(const std::vector<std::string>& words, const Environment& environment) {
  if (const auto said = said_of(config_option, words); !said.empty()) return said.back();
  if (auto named = environment(variable_of(config_option))) return named;
  std::error_code error;
  if (std::filesystem::exists(usual_settings_file, error)) return usual_settings_file;
  return std::nullopt;
}

std::vector<std::string> settings_in(const CLI::App& command) {
  std::vector<std::string> settings;
  for (const CLI::Option* option : command.get_options()) {
    for (const std::string& name : option->get_lnames()) {
      if (name != "help" && name != config_option) settings.push_back(name);
    }
  }
  return settings;
}

std::vector<std::string> all_settings(const CLI::App& app) {
  std::vector<std::string> all;
  for (const CLI::App* command : commands_in(app)) {
    const bool is_server = command->get_option_no_throw("--config") != nullptr;
    if (is_server) std::ranges::move(settings_in(*command), std::back_inserter(all));
  }
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

Result<Settings> settings_of(const CLI::App& command, const std::vector<std::string>& words,
                             const Environment& environment) {
  Settings settings;
  if (const auto file = settings_file(words, environment)) {
    HW_TAKE(text, read_whole_file(*file));
    // One file is for all servers: what only others have is passed over.
    HW_TAKE(read, parse_settings(text, *file, all_settings(*command.get_parent())));
    settings = std::move(read);
  }
  for (const std::string& name : settings_in(command)) {
    const CLI::Option& option = *option_of(command, name);
    if (const auto set = environment(variable_of(name))) {
      settings[name] = {is_many(option) ? between_commas(*set) : std::vector{*set}, variable_of(name)};
    }
    if (auto said = said_of(name, words); !said.empty()) {
      settings[name] = {is_flag(option) ? std::vector<std::string>{"true"} : std::move(said), "option"};
    }
    const std::string usual = option.get_default_str();
    if (!settings.contains(name) && !usual.empty()) settings[name] = {{usual}, "default"};
  }
  return settings;
}

std::vector<std::string> with_settings(const CLI::App& command, std::vector<std::string> words,
                                       const Settings& settings) {
  for (const auto& [name, setting] : settings) {
    const CLI::Option* option = option_of(command, name);
    if (option == nullptr || setting.origin == "option" || setting.origin == "default") continue;
    if (is_flag(*option)) {
      words.push_back(fmt::format("--{}={}", name, setting.values.empty() ? "false" : setting.values.front()));
      continue;
    }
    for (const std::string& value : setting.values) words.push_back(fmt::format("--{}={}", name, value));
  }
  return words;
}

}  // namespace hw::terminal
