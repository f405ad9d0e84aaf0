#pragma once
// hourwright workbook: a shop's file as a workbook to be filled in (docs/set-up/workbook.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_workbook_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
