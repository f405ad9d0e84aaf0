#include "src/terminal/help_command.h"

#include <memory>

#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/terminal/command_table.h"
#include "src/terminal/commands_in.h"
#include "src/terminal/completion.h"
#include "src/terminal/man_page.h"
#include "src/terminal/settings.h"

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
  std::vector<std::string> settings;  // as variables of the environment
};
BOOST_DESCRIBE_STRUCT(Help, (), (commands, settings))

Help help_of_all(const CLI::App& app) {
  Help help;
  for (const CommandRow& row : command_table(app)) {
    CommandHelp command{row.name, row.about, {}};
    for (const OptionRow& option : row.options) command.options.push_back(option.name);
    help.commands.push_back(std::move(command));
  }
  for (const std::string& setting : all_settings(app)) help.settings.push_back(variable_of(setting));
  return help;
}

Answer help_text(const CLI::App& app, const std::string& name) {
  // App::help() would tell of the command that was called: of this one.
  if (name.empty()) return app.get_formatter()->make_help(&app, app.get_name(), CLI::AppFormatMode::Normal);
  if (const CLI::App* command = find_command(app, name)) return command->help();
  return refuse(ErrorCode::wrong_usage, "there is no command \"{}\"; see hourwright help", name);
}

struct HelpCall {
  std::string command;
  std::string shell;
  bool is_man = false;
  bool json = false;
};

Answer help(const CLI::App& app, const HelpCall& call) {
  if (call.json) return formats::print_json(help_of_all(app)) + "\n";
  if (call.is_man) return man_page(command_table(app));
  if (call.shell == "bash") return bash_completion(command_table(app));
  if (call.shell == "fish") return fish_completion(command_table(app));
  return help_text(app, call.command);
}

}  // namespace

void add_help_command(CLI::App& app, const Entrances&, Answer& answer) {
  const auto call = std::make_shared<HelpCall>();
  CLI::App* command = app.add_subcommand("help", "What commands there are and what they take");
  command->add_option("command", call->command, "the command to tell about");
  command->add_flag("--json", call->json, "print JSON");
  command->add_flag("--man", call->is_man, "print the manual page");
  command->add_option("--completion", call->shell, "print what a shell completes by")
      ->type_name("SHELL")
      ->check(CLI::IsMember({"bash", "fish"}));
  command->callback([&app, &answer, call] { answer = help(app, *call); });
}

}  // namespace hw::terminal
