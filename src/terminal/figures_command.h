#pragma once
// hourwright figures: availability, MTBF, MTTR and the corrective ratio of a month, each with what it means and rests
// on (docs/methods/figures.md). Field names are those of tests/published/t7_facts.json.

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_figures_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
