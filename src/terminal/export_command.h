#pragma once
// hourwright export and import: a shop's record as open files, and a shop made of them (docs/operations/export.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_export_command(CLI::App& app, const Entrances& entrances, Answer& answer);
void add_import_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
