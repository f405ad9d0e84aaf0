#include "src/terminal/command_table.h"

#include <algorithm>

#include "src/terminal/commands_in.h"

namespace hw::terminal {
namespace {

bool names_a_path(const std::string& takes) {
  return takes == "FILE" || takes == "DIR" || takes.find('.') != std::string::npos;
}

// "{serve,edge}", as the parser says what one of a set is.
std::vector<std::string> words_of(const CLI::Option& option) {
  const std::string type = option.get_type_name();
  const auto begin = type.find('{'), end = type.find('}');
  std::vector<std::string> words;
  if (begin == std::string::npos || end == std::string::npos) return words;
  for (std::size_t at = begin + 1; at <= end;) {
    const std::size_t comma = std::min(type.find(',', at), end);
    words.push_back(type.substr(at, comma - at));
    at = comma + 1;
  }
  return words;
}

OptionRow row_of(const CLI::Option& option, const std::string& name) {
  const bool is_flag = option.get_items_expected_max() == 0;
  OptionRow row{"--" + name, is_flag ? "" : option.get_type_name(), option.get_description(), option.get_default_str(),
                words_of(option)};
  row.is_path = !is_flag && names_a_path(row.takes);
  return row;
}

void add_rows(const CLI::App& app, const std::string& before, std::vector<CommandRow>& table) {
  for (const CLI::App* command : commands_in(app)) {
    CommandRow row{before + command->get_name(), command->get_description(), {}};
    for (const CLI::Option* option : command->get_options()) {
      for (const std::string& name : option->get_lnames()) row.options.push_back(row_of(*option, name));
      row.takes_files = row.takes_files || option->get_positional();
    }
    table.push_back(row);
    add_rows(*command, row.name + " ", table);
  }
}

}  // namespace

std::vector<CommandRow> command_table(const CLI::App& app) {
  std::vector<CommandRow> table;
  add_rows(app, "", table);
  return table;
}

}  // namespace hw::terminal
