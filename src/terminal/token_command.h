#pragma once
// hourwright token: what other programs come in with. Beside a running server or without one.

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_token_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
