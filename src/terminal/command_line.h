#pragma once
// The program as it is called from a shell: one table of commands, each in a file of its own named <name>_command.cpp.
//
// Results go to standard output, refusals as one sentence to standard error. Exit status: 0 done, 1 refused, 2 wrong
// usage.

#include <string>

#include "libs/values/result.h"

namespace CLI {
class App;
}

namespace hw::terminal {

// What commands need that lies behind the terminal in the order of folders: main.cpp fills it in.
struct Entrances {};

// What a command has to say, or why not. wrong_usage exits with 2, every other refusal with 1.
using Answer = Result<std::string>;

// A command puts its options into the app; `answer` is what it says when it is the one that was called.
using AddCommand = void (*)(CLI::App& app, const Entrances& entrances, Answer& answer);

int run(int argc, char** argv, const Entrances& entrances);

}  // namespace hw::terminal
