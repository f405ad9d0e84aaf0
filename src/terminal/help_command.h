#pragma once
// hourwright help [COMMAND] [--json]: what commands there are and what they take, from the table itself.

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_help_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
