#pragma once
// hourwright backup, backup verify and restore: copies of a shop (docs/operations/copies.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_backup_command(CLI::App& app, const Entrances& entrances, Answer& answer);
void add_restore_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
