#pragma once
// hourwright copy-to: a shop from its file into a database on a server (docs/operations/README.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_copy_to_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
