#include "src/condition/typed_reading.h"

#include <algorithm>
#include <charconv>
#include <string>

#include "src/condition/possible_value.h"

namespace hw::condition {
namespace {

using catalogue::TaskReading;

constexpr std::size_t typed_max = 60;

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
}

bool is_digit(char character) { return character >= '0' && character <= '9'; }

std::string_view trim(std::string_view text) {
  const auto begin = text.find_first_not_of(" \t");
  if (begin == std::string_view::npos) return "";
  return text.substr(begin, text.find_last_not_of(" \t") - begin + 1);
}

// Plain signs for those that telephones and spreadsheets write: no-break blanks and the real minus.
std::string with_plain_signs(std::string_view typed) {
  std::string text{typed};
  replace_all(text, "\u00a0", " ");
  replace_all(text, "\u202f", " ");
  replace_all(text, "\u2212", "-");
  return text;
}

// The number without the blanks between its digits, and what follows it.
struct Typed {
  std::string number;
  std::string unit;
};

Typed split(std::string_view typed) {
  const std::string plain = with_plain_signs(typed);
  const std::string_view text = trim(plain);
  const auto end = std::min(text.find_first_not_of("+-0123456789., "), text.size());
  const std::string_view number = trim(text.substr(0, end));
  Typed out{.number = "", .unit = std::string{trim(text.substr(end))}};
  for (std::size_t i = 0; i < number.size(); ++i) {
    const bool is_between_digits = number[i] == ' ' && is_digit(number[i - 1]) && is_digit(number[i + 1]);
    if (!is_between_digits) out.number += number[i];
  }
  return out;
}

// 1,234 and 12.345: three digits behind the mark and one to three, not a zero, before it.
bool has_two_meanings(std::string_view digits) {
  const auto mark = digits.find_first_of(".,");
  return mark != std::string_view::npos && digits.size() - mark == 4 && mark >= 1 && mark <= 3 && digits.front() != '0';
}

auto refuse_text(const TaskReading& reading, std::string_view typed) {
  return refuse(ErrorCode::bad_input, "{}: \"{}\" is no number; write it in digits, for example 5.2 {}", reading.what,
                typed, reading.unit);
}

Result<void> check_digits(const TaskReading& reading, std::string_view digits, std::string_view typed) {
  const auto marks = std::count_if(digits.begin(), digits.end(), [](char one) { return one == '.' || one == ','; });
  const auto are_digits = std::count_if(digits.begin(), digits.end(), is_digit);
  if (are_digits == 0 || static_cast<std::size_t>(marks + are_digits) != digits.size()) {
    return refuse_text(reading, typed);
  }
  if (marks > 1) {
    return refuse(ErrorCode::bad_input,
                  "{}: \"{}\" has {} marks; write one comma or point, as the decimal mark: 1234.5", reading.what, typed,
                  marks);
  }
  return {};
}

Result<void> check_meaning(const TaskReading& reading, const std::string& number, std::string_view digits) {
  if (!has_two_meanings(digits)) return {};
  std::string whole = number;
  whole.erase(whole.find_first_of(".,"), 1);
  return refuse(ErrorCode::bad_input, "{}: \"{}\" can be read in two ways; write {}, or {}0", reading.what, number,
                whole, number);
}

Result<void> check_typed_unit(const TaskReading& reading, std::string_view unit, std::string_view typed) {
  if (unit.empty()) return {};
  const bool is_exponent =
      unit.size() > 1 && (unit[0] == 'e' || unit[0] == 'E') && (is_digit(unit[1]) || unit[1] == '-' || unit[1] == '+');
  if (is_exponent) return refuse_text(reading, typed);
  return check_unit(reading, unit);
}

}  // namespace

Result<double> parse_reading(const TaskReading& reading, std::string_view typed) {
  if (typed.size() > typed_max) {
    return refuse(ErrorCode::bad_input, "{}: that is too long for a number; for example 5.2 {}", reading.what,
                  reading.unit);
  }
  const auto [number, unit] = split(typed);
  const bool is_negative = number.starts_with('-');
  std::string digits = is_negative || number.starts_with('+') ? number.substr(1) : number;
  HW_TRY(check_digits(reading, digits, typed));
  HW_TRY(check_typed_unit(reading, unit, typed));
  HW_TRY(check_meaning(reading, number, digits));
  std::replace(digits.begin(), digits.end(), ',', '.');
  double value = 0;
  const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (read.ec != std::errc{}) return refuse_text(reading, typed);
  if (is_negative && value != 0) value = -value;
  HW_TRY(check_value(reading, value));
  return value;
}

}  // namespace hw::condition
