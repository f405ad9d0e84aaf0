#pragma once
// hourwright labels: labels for machines as a PDF, without a server (docs/use/labels.md).

#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_labels_command(CLI::App& app, const Entrances& entrances, Answer& answer);

}  // namespace hw::terminal
