#pragma once
// hourwright condition chart|ewma|cusum|trend|crossing|rate: readings from a table, judged by themselves
// (docs/methods/condition.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_condition_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
