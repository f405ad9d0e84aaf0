#pragma once
// The manual page hourwright(1), in the form of man(7).

#include <string>
#include <vector>

#include "src/terminal/command_table.h"

namespace hw::terminal {

std::string man_page(const std::vector<CommandRow>& commands);

}  // namespace hw::terminal
