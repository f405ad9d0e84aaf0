#include "src/terminal/man_page.h"

#include <fmt/format.h>

namespace hw::terminal {
namespace {

// A line that begins with a dot or a quote is a request, and a backslash an escape.
std::string in_roff(const std::string& text) {
  std::string out = text.starts_with('.') || text.starts_with('\'') ? "\\&" : "";
  for (const char one : text) {
    if (one == '\\') {
      out += "\\e";
    } else if (one == '-') {
      out += "\\-";
    } else {
      out += one;
    }
  }
  return out;
}

std::string in_roff(const OptionRow& option) {
  std::string text =
      fmt::format(".TP\n\\fB{}\\fR{}\n{}", in_roff(option.name),
                  option.takes.empty() ? "" : " \\fI" + in_roff(option.takes) + "\\fR", in_roff(option.about));
  if (!option.usual.empty()) text += fmt::format(" (where nothing is said: {})", in_roff(option.usual));
  return text + "\n";
}

constexpr const char* front = R"(.TH HOURWRIGHT 1
.SH NAME
hourwright \- counts the hours that wear machine tools and says what maintenance is due
.SH SYNOPSIS
.B hourwright
.I COMMAND
.RI [ OPTION ...]
.SH DESCRIPTION
Serves a shop's pages and follows its machines (serve), and works on the shop's data and on plain files (all others). Answers go to standard output, refusals as one sentence to standard error.
.SH COMMANDS
)";

constexpr const char* back = R"(.SH EXIT STATUS
0 done, 1 refused (bad input, a port or folder in use), 2 wrong usage.
.SH FILES
.TP
.I /etc/hourwright/hourwright.toml
the settings of serve and edge; a key is an option's name without its dashes in front
.SH ENVIRONMENT
An option \-\-listen\-tls of serve and edge can be said as HOURWRIGHT_LISTEN_TLS too. HOURWRIGHT_CONFIG names the file of settings, HOURWRIGHT_DATA the data folder.
)";

}  // namespace

std::string man_page(const std::vector<CommandRow>& commands) {
  std::string text = front;
  for (const CommandRow& command : commands) {
    text += fmt::format(".SS hourwright {}\n{}\n", in_roff(command.name), in_roff(command.about));
    for (const OptionRow& option : command.options) {
      if (option.name != "--help") text += in_roff(option);
    }
  }
  return text + back;
}

}  // namespace hw::terminal
