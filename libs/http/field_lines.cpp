#include "libs/http/field_lines.h"

#include <algorithm>

namespace hw::http {
namespace {

constexpr std::string_view token_marks = "!#$%&'*+-.^_`|~";

bool is_token_char(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
         token_marks.find(c) != std::string_view::npos;
}

std::string_view without_blanks(std::string_view text) {
  const auto first = text.find_first_not_of(" \t\r");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

}  // namespace

bool is_token(std::string_view text) { return !text.empty() && std::all_of(text.begin(), text.end(), is_token_char); }

Result<Headers> parse_field_lines(std::string_view lines) {
  Headers headers;
  while (!lines.empty()) {
    const auto end = std::min(lines.find('\n'), lines.size());
    const std::string_view line = lines.substr(0, end);
    lines.remove_prefix(std::min(end + 1, lines.size()));
    const auto colon = line.find(':');
    if (colon == std::string_view::npos || !is_token(line.substr(0, colon))) {
      return refuse(ErrorCode::peer_misbehaved, "\"{}\" is no header; right is \"Name: value\"",
                    without_blanks(line).substr(0, 80));
    }
    headers.add(std::string(line.substr(0, colon)), std::string(without_blanks(line.substr(colon + 1))));
  }
  return headers;
}

}  // namespace hw::http
