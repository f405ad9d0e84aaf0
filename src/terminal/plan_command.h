#pragma once
// hourwright plan: stops from an instance in a file (docs/methods/plan.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_plan_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
