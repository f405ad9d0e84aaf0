#pragma once
// hourwright support-bundle: what somebody who helps has to know, and nothing of the people
// (docs/operations/troubles.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_support_bundle_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
