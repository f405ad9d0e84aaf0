#pragma once
// hourwright hours: counts the hours of recordings (docs/api/hours.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_hours_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
