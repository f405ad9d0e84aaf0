#pragma once
// hourwright rebuild: what follows from entries and observations made again from them (docs/operations/commands.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_rebuild_command(CLI::App& app, const Entrances& entrances, Answer& answer);

// For people: for each part the digests before and after, and each difference.
std::string rebuild_text(const service::RebuildReport& report);

}  // namespace hw::terminal
