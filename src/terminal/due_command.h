#pragma once
// hourwright due: when tasks fall due, from files (docs/api/due.md); hourwright due backtest: how good that is.

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_due_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
