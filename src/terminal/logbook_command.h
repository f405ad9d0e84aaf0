#pragma once
// hourwright logbook verify: is the logbook as it was written? (docs/methods/logbook.md)

#include "src/record/verify.h"
#include "src/terminal/command_line.h"

namespace hw::terminal {

void add_logbook_command(CLI::App& app, const Entrances& entrances, Answer& answer);

// The verdict for people: one line that all is well, or one for each break.
std::string verdict_text(const record::Verdict& verdict);
// The same as one JSON object.
std::string verdict_json(const record::Verdict& verdict);

}  // namespace hw::terminal
