#pragma once
// hourwright admin: who may come in, from the server's own computer. Beside a running server or without one.

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_admin_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
