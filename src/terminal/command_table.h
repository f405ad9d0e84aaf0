#pragma once
// All commands with their options, as the program itself takes them: what help, man page and shell completion are made
// from.

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace hw::terminal {

struct OptionRow {
  std::string name;   // "--listen"
  std::string takes;  // "ADDR:PORT"; empty: a flag
  std::string about;
  std::string usual;               // its default; empty: none
  std::vector<std::string> words;  // of a fixed choice
  bool is_path = false;            // it takes a file or folder
};

struct CommandRow {
  std::string name;  // "life fit"
  std::string about;
  std::vector<OptionRow> options;
  bool takes_files = false;  // besides options
};

// In their order; a command of commands comes before them.
std::vector<CommandRow> command_table(const CLI::App& app);

}  // namespace hw::terminal
