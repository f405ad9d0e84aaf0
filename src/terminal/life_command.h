#pragma once
// hourwright life: what lives of parts and failures of machines say (docs/methods/life.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_life_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
