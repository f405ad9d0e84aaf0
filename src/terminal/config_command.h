#pragma once
// hourwright config: what a server's settings are, and where each comes from (docs/operations/settings.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_config_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
