#pragma once
// hourwright instance: what a shop has ahead, as an instance for the planning of stops (docs/methods/plan.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_instance_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
