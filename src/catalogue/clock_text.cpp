#include "src/catalogue/clock_text.h"

namespace hw::catalogue {

Result<int> parse_clock(std::string_view text) {
  const auto number_at = [&](std::size_t at) {
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    return is_digit(text[at]) && is_digit(text[at + 1]) ? (text[at] - '0') * 10 + (text[at + 1] - '0') : -1;
  };
  const bool has_form = text.size() == 5 && text[2] == ':';
  const int hour = has_form ? number_at(0) : -1;
  const int minute = has_form ? number_at(3) : -1;
  if (hour < 0 || hour > 23 || minute < 0 || minute > 59) {
    return refuse(ErrorCode::bad_input, "\"{}\" is no time of day; it looks like 06:00", text.substr(0, 20));
  }
  return hour * 60 + minute;
}

}  // namespace hw::catalogue
