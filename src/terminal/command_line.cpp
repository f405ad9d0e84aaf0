#include "src/terminal/command_line.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <vector>

#include <CLI/CLI.hpp>

#include "src/terminal/admin_command.h"
#include "src/terminal/backup_command.h"
#include "src/terminal/commands_in.h"
#include "src/terminal/condition_command.h"
#include "src/terminal/config_command.h"
#include "src/terminal/copy_to_command.h"
#include "src/terminal/doctor_command.h"
#include "src/terminal/due_command.h"
#include "src/terminal/environment.h"
#include "src/terminal/evaluate_command.h"
#include "src/terminal/export_command.h"
#include "src/terminal/figures_command.h"
#include "src/terminal/help_command.h"
#include "src/terminal/hours_command.h"
#include "src/terminal/instance_command.h"
#include "src/terminal/kits_command.h"
#include "src/terminal/labels_command.h"
#include "src/terminal/life_command.h"
#include "src/terminal/logbook_command.h"
#include "src/terminal/plan_command.h"
#include "src/terminal/rebuild_command.h"
#include "src/terminal/rehearse_command.h"
#include "src/terminal/serve_command.h"
#include "src/terminal/settings.h"
#include "src/terminal/support_bundle_command.h"
#include "src/terminal/tls_command.h"
#include "src/terminal/token_command.h"
#include "src/terminal/workbook_command.h"

namespace hw::terminal {
namespace {

enum Exit { exit_done = 0, exit_refused = 1, exit_wrong_usage = 2 };

constexpr std::array<AddCommand, 30> added_commands = {
    add_hours_command,    add_due_command,      add_condition_command,      add_evaluate_command,
    add_life_command,     add_kits_command,     add_figures_command,        add_plan_command,
    add_rehearse_command, add_instance_command, add_serve_command,          add_edge_command,
    add_found_command,    add_demo_command,     add_logbook_command,        add_labels_command,
    add_tls_command,      add_admin_command,    add_token_command,          add_backup_command,
    add_restore_command,  add_export_command,   add_import_command,         add_copy_to_command,
    add_rebuild_command,  add_doctor_command,   add_support_bundle_command, add_workbook_command,
    add_config_command,   add_help_command};

int tell_error(const Error& error) {
  std::fprintf(stderr, "hourwright: %s\n", error.message.c_str());
  return error.code == ErrorCode::wrong_usage ? exit_wrong_usage : exit_refused;
}

// A word that is no command is named, rather than that there is none.
Error usage_error(const CLI::App& app, const CLI::ParseError& error) {
  const std::vector<std::string> extra = app.remaining();
  const bool has_command = !app.get_subcommands().empty();
  const std::string what =
      has_command || extra.empty() ? error.what() : fmt::format("there is no command \"{}\"", extra.front());
  return {ErrorCode::wrong_usage, what + "; see hourwright help"};
}

int tell(const Answer& answer) {
  if (!answer) return tell_error(answer.error());
  const bool is_written = std::fwrite(answer->text.data(), 1, answer->text.size(), stdout) == answer->text.size();
  if (!is_written || std::fflush(stdout) != 0) {
    return tell_error({ErrorCode::disk_full, "the answer could not be written to standard output"});
  }
  return answer->is_as_it_should_be ? exit_done : exit_refused;
}

// Of a server, with what the file of settings and the environment say.
Result<std::vector<std::string>> completed(const CLI::App& app, std::vector<std::string> words, Settings& settings) {
  const CLI::App* command = words.empty() ? nullptr : find_command(app, words.front());
  const bool is_help = std::find(words.begin(), words.end(), "--help") != words.end();
  if (is_help || command == nullptr || command->get_option_no_throw("--config") == nullptr) return words;
  HW_TAKE(found, settings_of(*command, words, variable));
  settings = std::move(found);
  return with_settings(*command, std::move(words), settings);
}

// Where the setting of which an error tells comes from, if not from the words themselves.
std::string origin_in(const std::string& message, const Settings& settings) {
  for (const auto& [name, setting] : settings) {
    const bool is_said = setting.origin != "option" && setting.origin != "default";
    if (is_said && message.starts_with("--" + name + ":")) return setting.origin + ": ";
  }
  return "";
}

}  // namespace

int run(int argc, char** argv, const Entrances& entrances) {
  CLI::App app("Hourwright counts the hours that wear machine tools, and says what maintenance is due.", "hourwright");
  app.require_subcommand(1);
  Answer answer{""};
  for (const AddCommand add : added_commands) add(app, entrances, answer);
  Settings settings;
  auto words = completed(app, {argv + 1, argv + argc}, settings);
  if (!words) return tell_error(words.error());
  std::reverse(words->begin(), words->end());  // as the parser wants them
  try {
    app.parse(std::move(*words));
  } catch (const CLI::CallForHelp&) {
    return tell(app.help());
  } catch (const CLI::ParseError& error) {
    Error usage = usage_error(app, error);
    usage.message = origin_in(usage.message, settings) + usage.message;
    return tell_error(usage);
  } catch (const std::exception& failed) {  // the world broke: a disk that is full or fails
    return tell_error({ErrorCode::disk_full, failed.what()});
  }
  return tell(answer);
}

}  // namespace hw::terminal
