#pragma once
// The commands that an app has.

#include <string_view>
#include <vector>

#include <CLI/CLI.hpp>

namespace hw::terminal {

inline std::vector<const CLI::App*> commands_in(const CLI::App& app) {
  return app.get_subcommands([](const CLI::App*) { return true; });
}

// Null where there is none of that name.
inline const CLI::App* find_command(const CLI::App& app, std::string_view name) {
  for (const CLI::App* command : commands_in(app)) {
    if (command->get_name() == name) return command;
  }
  return nullptr;
}

}  // namespace hw::terminal
