#pragma once
// hourwright kits: what stock of parts to have, and five years of stores played under several rules.

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_kits_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
