#include "src/terminal/help_command.h"

#include <memory>
#include <vector>

#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/terminal/commands_in.h"

namespace hw::terminal {
namespace {

struct CommandHelp {
  std::string name;
  std::string about;
  std::vector<std::string> options;
};
BOOST_DESCRIBE_STRUCT(CommandHelp, (), (name, about, options))

struct Help {
  std::vector<CommandHelp> commands;
};
BOOST_DESCRIBE_STRUCT(Help, (), (commands))

CommandHelp help_of(const CLI::App& command) {
  CommandHelp help{command.get_name(), command.get_description(), {}};
  for (const CLI::Option* option : command.get_options()) {
    for (const std::string& name : option->get_lnames()) help.options.push_back("--" + name);
  }
  return help;
}

Help help_of_all(const CLI::App& app) {
  Help help;
  for (const CLI::App* command : commands_in(app)) help.commands.push_back(help_of(*command));
  return help;
}

Answer help_text(const CLI::App& app, const std::string& name) {
  // App::help() would tell of the command that was called: of this one.
  if (name.empty()) return app.get_formatter()->make_help(&app, app.get_name(), CLI::AppFormatMode::Normal);
  if (const CLI::App* command = find_command(app, name)) return command->help();
  return refuse(ErrorCode::wrong_usage, "there is no command \"{}\"; see hourwright help", name);
}

}  // namespace

void add_help_command(CLI::App& app, const Entrances&, Answer& answer) {
  struct Options {
    std::string command;
    bool json = false;
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("help", "What commands there are and what they take");
  command->add_option("command", options->command, "the command to tell about");
  command->add_flag("--json", options->json, "print JSON");
  command->callback([&app, &answer, options] {
    answer = options->json ? Answer(formats::print_json(help_of_all(app)) + "\n") : help_text(app, options->command);
  });
}

}  // namespace hw::terminal
