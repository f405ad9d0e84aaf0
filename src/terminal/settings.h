#pragma once
// What a server (serve, edge) can be told by an option, it can be told by its file of settings or by the environment
// too. An option goes before the environment, that before the file, that before what the program has by itself.
//
//   file         listen = "0.0.0.0:8470"        TOML 1.0; a key is an option's name without its dashes in front
//   environment  HOURWRIGHT_LISTEN=0.0.0.0:8470
//   option       --listen 0.0.0.0:8470
//
// What can be said more than once is an array in the file, and has commas between in the environment; a flag is true
// or false.

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "libs/values/result.h"

namespace CLI {
class App;
}

namespace hw::terminal {

inline constexpr const char* usual_settings_file = "/etc/hourwright/hourwright.toml";

// Of an option: "listen-tls" is HOURWRIGHT_LISTEN_TLS.
std::string variable_of(const std::string& setting);

struct Setting {
  std::vector<std::string> values;
  std::string origin;  // "HOURWRIGHT_LISTEN", "hourwright.toml, line 12", "option", "default"
};
using Settings = std::map<std::string, Setting>;

// A file's text; `known`: the settings that there are. Refuses (bad_input, with file and line): what is no TOML, a key
// that is no setting, a table, a value that is neither text, number, true, false nor an array of texts.
Result<Settings> parse_settings(const std::string& text, const std::string& name,
                                const std::vector<std::string>& known);

// A variable of the environment; nothing where it is not set.
using Environment = std::function<std::optional<std::string>(const std::string& variable)>;

// The file that is to be read: by --config, by HOURWRIGHT_CONFIG, else the usual one where it is there.
std::optional<std::string> settings_file(const std::vector<std::string>& words, const Environment& environment);

// What goes for a server called with these words: from them, the environment and the file. Refuses besides what reading
// the file refuses.
Result<Settings> settings_of(const CLI::App& command, const std::vector<std::string>& words,
                             const Environment& environment);

// The words, with an option behind them for every setting that they do not say; those of `settings` that the command
// has.
std::vector<std::string> with_settings(const CLI::App& command, std::vector<std::string> words,
                                       const Settings& settings);

// The settings that a command has, and those of all servers, each once.
std::vector<std::string> settings_in(const CLI::App& command);
std::vector<std::string> all_settings(const CLI::App& app);

}  // namespace hw::terminal
