#pragma once
// The option --data of commands that work on a shop.

#include <string>

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace hw::terminal {

// The shop's data folder: --data, else the environment's HOURWRIGHT_DATA, else the folder one stands in.
CLI::Option* add_data_option(CLI::App& command, std::string& data);

}  // namespace hw::terminal
