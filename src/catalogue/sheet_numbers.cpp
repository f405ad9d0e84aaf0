#include "src/catalogue/sheet_numbers.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "libs/values/small_letters.h"

namespace hw::catalogue {
namespace {

bool is_digit(char letter) { return letter >= '0' && letter <= '9'; }

std::string replaced(std::string text, std::string_view old, std::string_view plain) {
  for (auto at = text.find(old); at != std::string::npos; at = text.find(old, at + plain.size())) {
    text.replace(at, old.size(), plain);
  }
  return text;
}

// Blanks, apostrophes and minus signs of typesetters as those of keyboards.
std::string with_plain_signs(std::string_view text) {
  std::string plain(text);
  for (const std::string_view blank : {"\u00A0", "\u202F", "\u2009", "\t"}) plain = replaced(plain, blank, " ");
  return replaced(replaced(plain, "\u2019", "'"), "\u2212", "-");
}

std::string_view trimmed(std::string_view text) {
  const auto begin = text.find_first_not_of(' ');
  return begin == std::string_view::npos ? "" : text.substr(begin, text.find_last_not_of(' ') - begin + 1);
}

std::size_t digits_from(std::string_view text, std::size_t at) {
  std::size_t count = 0;
  while (at + count < text.size() && is_digit(text[at + count])) ++count;
  return count;
}

// "e-05" with its digits; nothing of it where there is none.
std::size_t exponent_length(std::string_view text, std::size_t at) {
  if (at >= text.size() || (text[at] != 'e' && text[at] != 'E')) return 0;
  const std::size_t sign = at + 1 < text.size() && (text[at + 1] == '+' || text[at + 1] == '-') ? 1 : 0;
  const std::size_t digits = digits_from(text, at + 1 + sign);
  return digits == 0 ? 0 : 1 + sign + digits;
}

// The digits from `at` on, which is moved behind them.
std::string take_digits(std::string_view text, std::size_t& at) {
  std::string digits;
  while (at < text.size()) {
    const bool parts_thousands = (text[at] == ' ' || text[at] == '\'') && digits_from(text, at + 1) == 3;
    if (parts_thousands) {
      ++at;
    } else if (is_digit(text[at]) || text[at] == '.' || text[at] == ',') {
      digits += text[at++];
    } else {
      break;
    }
  }
  const std::size_t length = exponent_length(text, at);
  digits += text.substr(at, length);
  at += length;
  return digits;
}

std::string_view mantissa_of(std::string_view digits) {
  if (!digits.empty() && digits.front() == '-') digits.remove_prefix(1);
  return digits.substr(0, digits.find_first_of("eE"));
}

// "1234" of "1.234": thousands of three digits, the first group of one to three.
std::optional<std::string> without_marks_between_thousands(std::string_view whole, char mark) {
  std::string plain;
  for (bool is_first = true;; is_first = false) {
    const auto end = std::min(whole.find(mark), whole.size());
    const bool is_only = is_first && end == whole.size();
    if (!is_only && (is_first ? end < 1 || end > 3 : end != 3)) return std::nullopt;
    plain += whole.substr(0, end);
    if (end == whole.size()) return plain;
    whole.remove_prefix(end + 1);
  }
}

}  // namespace

bool holds_number(SheetField field) {
  constexpr std::array numbers{SheetField::price,   SheetField::pack,
                               SheetField::minimum, SheetField::lead_days,
                               SheetField::on_hand, SheetField::shelf_life_days,
                               SheetField::wanted,  SheetField::failures_per_year};
  return std::find(numbers.begin(), numbers.end(), field) != numbers.end();
}

std::optional<NumberText> split_number(std::string_view text) {
  const std::string plain = with_plain_signs(text);
  const auto first_digit = plain.find_first_of("0123456789");
  if (first_digit == std::string::npos) return std::nullopt;
  std::size_t at = first_digit;
  if (at > 0 && (plain[at - 1] == '.' || plain[at - 1] == ',')) --at;
  std::string before = plain.substr(0, at);
  NumberText number{take_digits(plain, at), {}};
  std::string behind(trimmed(std::string_view(plain).substr(at)));
  if (behind == "-" || behind == "\u2013" || behind == "\u2014") behind.clear();  // "5,-": no cents
  const auto sign = before.find_first_of("+-");
  if (sign != std::string::npos) {
    if (before[sign] == '-') number.digits.insert(0, 1, '-');
    before.erase(sign, 1);
  }
  const std::string word_before(trimmed(before));
  if (!word_before.empty() && !behind.empty()) return std::nullopt;
  number.word = in_small_letters(word_before + behind);
  if (number.word.find_first_of("0123456789") != std::string::npos) return std::nullopt;
  return number;
}

DecimalSign sign_told_by(std::string_view digits) {
  const std::string_view mantissa = mantissa_of(digits);
  const auto points = std::count(mantissa.begin(), mantissa.end(), '.');
  const auto commas = std::count(mantissa.begin(), mantissa.end(), ',');
  if (points + commas == 0) return DecimalSign::untold;
  if (points > 0 && commas > 0) {
    return mantissa.rfind('.') > mantissa.rfind(',') ? DecimalSign::point : DecimalSign::comma;
  }
  if (points > 1) return DecimalSign::comma;
  if (commas > 1) return DecimalSign::point;
  const auto sign = mantissa.find_first_of(".,");
  const std::size_t before = sign, behind = mantissa.size() - sign - 1;
  const bool is_either = behind == 3 && before >= 1 && before <= 3 && mantissa.front() != '0' &&
                         mantissa.size() == digits.size() - (digits.front() == '-' ? 1 : 0);
  if (is_either) return DecimalSign::untold;
  return points > 0 ? DecimalSign::point : DecimalSign::comma;
}

DecimalSign sign_told_by(std::span<const std::string> numbers) {
  DecimalSign told = DecimalSign::untold;
  for (const std::string& digits : numbers) {
    const DecimalSign own = sign_told_by(std::string_view(digits));
    if (own == DecimalSign::untold || own == told) continue;
    if (told != DecimalSign::untold) return DecimalSign::untold;
    told = own;
  }
  return told;
}

bool has_two_ways(std::string_view digits) {
  return digits.find_first_of(".,") != std::string_view::npos && sign_told_by(digits) == DecimalSign::untold;
}

std::optional<double> read_digits(std::string_view digits, DecimalSign sign) {
  const char decimal = sign == DecimalSign::comma ? ',' : '.';
  const char mark = sign == DecimalSign::comma ? '.' : ',';
  const std::string_view mantissa = mantissa_of(digits);
  const auto at = std::min(mantissa.find(decimal), mantissa.size());
  const auto whole = without_marks_between_thousands(mantissa.substr(0, at), mark);
  if (!whole) return std::nullopt;
  const std::string_view behind = mantissa.substr(std::min(at + 1, mantissa.size()));
  const std::string_view exponent = digits.substr(static_cast<std::size_t>(mantissa.end() - digits.begin()));
  std::string plain = digits.starts_with('-') ? "-" : "";
  plain += (whole->empty() ? "0" : *whole) + "." + (behind.empty() ? "0" : std::string(behind)) + std::string(exponent);
  double number = 0;
  const auto read = std::from_chars(plain.data(), plain.data() + plain.size(), number);
  if (read.ec != std::errc() || read.ptr != plain.data() + plain.size() || !std::isfinite(number)) return std::nullopt;
  return number;
}

std::string print_digits(double number, DecimalSign sign) {
  std::string digits = fmt::format("{}", number);
  if (has_two_ways(digits)) digits += '0';
  if (sign == DecimalSign::comma) std::replace(digits.begin(), digits.end(), '.', ',');
  return digits;
}

bool is_same_number(double a, double b) { return fmt::format("{:.15g}", a) == fmt::format("{:.15g}", b); }

}  // namespace hw::catalogue
