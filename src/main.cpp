#include "src/terminal/command_line.h"

int main(int argc, char** argv) { return hw::terminal::run(argc, argv, {}); }
