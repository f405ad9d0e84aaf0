#pragma once
// hourwright serve, edge, found and demo: the server, the server of a plant that keeps its record itself, a new shop,
// and the invented shop (docs/operations/serve.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_serve_command(CLI::App& app, const Entrances& entrances, Answer& answer);
void add_edge_command(CLI::App& app, const Entrances& entrances, Answer& answer);
void add_found_command(CLI::App& app, const Entrances& entrances, Answer& answer);
void add_demo_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
