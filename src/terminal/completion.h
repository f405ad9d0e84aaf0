#pragma once
// What a shell completes behind "hourwright": commands, their options, files, and words of a fixed choice.

#include <string>
#include <vector>

#include "src/terminal/command_table.h"

namespace hw::terminal {

// A script for bash; zsh reads it too after `autoload bashcompinit && bashcompinit`.
std::string bash_completion(const std::vector<CommandRow>& commands);
std::string fish_completion(const std::vector<CommandRow>& commands);

}  // namespace hw::terminal
