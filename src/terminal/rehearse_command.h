#pragma once
// hourwright rehearse: years of a shop from a file, under the present intervals and under others
// (docs/methods/rehearsal.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_rehearse_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
