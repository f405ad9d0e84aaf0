#pragma once
// hourwright evaluate positioning|circular|cleanliness|vibration|coolant|viscosity|bearing|air: measurements
// judged by open standards, each with what it rests on (docs/methods/evaluations.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_evaluate_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
