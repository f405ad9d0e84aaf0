#include "src/terminal/completion.h"

#include <map>

#include <fmt/ranges.h>

namespace hw::terminal {
namespace {

// "life" of "life fit"; "" of "life".
std::string parent_of(const std::string& name) {
  const auto blank = name.find(' ');
  return blank == std::string::npos ? "" : name.substr(0, blank);
}
std::string last_word_of(const std::string& name) { return name.substr(name.rfind(' ') + 1); }

// The commands behind each: those behind nothing, and behind a command of commands.
std::map<std::string, std::vector<std::string>> words_behind(const std::vector<CommandRow>& commands) {
  std::map<std::string, std::vector<std::string>> words;
  for (const CommandRow& command : commands) words[parent_of(command.name)].push_back(last_word_of(command.name));
  return words;
}

std::string in_fish(const std::string& text) {
  std::string out;
  for (const char one : text) {
    if (one == '\'' || one == '\\') out += '\\';
    out += one;
  }
  return out;
}

constexpr const char* bash_front = R"(# Completion of hourwright, made by `hourwright help --completion bash`.
_hourwright() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command=${COMP_WORDS[1]} words=
  [[ $COMP_CWORD -gt 2 && ${COMP_WORDS[2]} != -* ]] && command="$command ${COMP_WORDS[2]}"
  [[ $COMP_CWORD -eq 1 ]] && command=
)";

constexpr const char* bash_back = R"(  COMPREPLY=($(compgen -W "$words" -- "$word"))
  [[ $word == -* || -n ${COMPREPLY[*]} ]] || compopt -o default
}
complete -F _hourwright hourwright
)";

// What follows an option: a file, a word of its choice.
std::string bash_values(const std::vector<CommandRow>& commands) {
  std::map<std::string, std::string> replies;
  for (const CommandRow& command : commands) {
    for (const OptionRow& option : command.options) {
      if (option.is_path) replies[option.name] = "compopt -o default; return";
      if (!option.words.empty()) replies[option.name] = fmt::format("words=\"{}\"", fmt::join(option.words, " "));
    }
  }
  std::string text = "  case $before in\n";
  for (const auto& [name, reply] : replies) text += fmt::format("    {}) {} ;;\n", name, reply);
  return text + "  esac\n";
}

}  // namespace

std::string bash_completion(const std::vector<CommandRow>& commands) {
  const auto behind = words_behind(commands);
  std::string text = bash_front + bash_values(commands) + "  [[ -n $words ]] || case $command in\n";
  text += fmt::format("    \"\") words=\"{}\" ;;\n", fmt::join(behind.at(""), " "));
  for (const CommandRow& command : commands) {
    std::vector<std::string> words;
    if (const auto more = behind.find(command.name); more != behind.end()) words = more->second;
    for (const OptionRow& option : command.options) words.push_back(option.name);
    text += fmt::format("    \"{}\"{}) words=\"{}\" ;;\n", command.name, command.takes_files ? "*" : "",
                        fmt::join(words, " "));
  }
  return text + "  esac\n" + bash_back;
}

std::string fish_completion(const std::vector<CommandRow>& commands) {
  std::string text = "# Completion of hourwright, made by `hourwright help --completion fish`.\n";
  for (const CommandRow& command : commands) {
    const std::string parent = parent_of(command.name);
    const std::string when =
        parent.empty() ? "__fish_use_subcommand" : fmt::format("__fish_seen_subcommand_from {}", parent);
    text += fmt::format("complete -c hourwright -f -n '{}' -a {} -d '{}'\n", when, last_word_of(command.name),
                        in_fish(command.about));
    for (const OptionRow& option : command.options) {
      std::string how = option.takes.empty() ? "" : option.is_path ? " -r -F" : " -x";
      if (!option.words.empty()) how = fmt::format(" -x -a '{}'", fmt::join(option.words, " "));
      text += fmt::format("complete -c hourwright -n '__fish_seen_subcommand_from {}' -l {}{} -d '{}'\n",
                          last_word_of(command.name), option.name.substr(2), how, in_fish(option.about));
    }
  }
  return text;
}

}  // namespace hw::terminal
