#include "src/terminal/data_folder.h"

#include <CLI/CLI.hpp>

namespace hw::terminal {

CLI::Option* add_data_option(CLI::App& command, std::string& data) {
  data = ".";
  return command.add_option("--data", data, "the shop's data folder")
      ->type_name("DIR")
      ->envname("HOURWRIGHT_DATA")
      ->capture_default_str();
}

}  // namespace hw::terminal
