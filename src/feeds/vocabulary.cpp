#include "src/feeds/vocabulary.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "src/feeds/text_hash.h"

namespace hw::feeds {
namespace {

using counters::Role;
using counters::unknown_value;

// Every word that the standard has had for Execution, 1.0 to 2.x (mtconnect.md, section 2).
constexpr std::array<std::string_view, 10> execution_words = {
    "ACTIVE",        "READY", "INTERRUPTED",          "STOPPED", "FEED_HOLD", "PROGRAM_STOPPED", "PROGRAM_COMPLETED",
    "OPTIONAL_STOP", "WAIT",  "PROGRAM_OPTIONAL_STOP"};

constexpr std::array<double, 23> powers_of_ten = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                  1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                                  1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

// Digits with at most one point, up to 15 of them: whole number and power of ten are exact in a double, so one division
// gives the nearest double. False where the text is anything else.
bool read_plain(std::string_view text, double& out) {
  const bool negative = !text.empty() && text[0] == '-';
  std::uint64_t digits = 0;
  int count = 0, behind_point = -1;
  for (std::size_t i = negative ? 1 : 0; i < text.size(); ++i) {
    const unsigned digit = static_cast<unsigned char>(text[i]) - unsigned{'0'};
    if (digit <= 9) {
      digits = digits * 10 + digit;
      if (++count > 15) return false;
      if (behind_point >= 0) ++behind_point;
    } else if (text[i] == '.' && behind_point < 0) {
      behind_point = 0;
    } else {
      return false;
    }
  }
  if (count == 0) return false;
  const double value = static_cast<double>(digits);
  out = behind_point > 0 ? value / powers_of_ten[static_cast<std::size_t>(behind_point)] : value;
  if (negative) out = -out;
  return true;
}

double read_any(std::string_view text) {
  if (text.size() > 1 && text[0] == '+' && text[1] != '-') text.remove_prefix(1);
  double value = unknown_value;
  const char* const end = text.data() + text.size();
  const auto [stopped, error] = std::from_chars(text.data(), end, value);
  if (error != std::errc{} || stopped != end || !std::isfinite(value)) return unknown_value;
  return value;
}

}  // namespace

std::string_view trim(std::string_view text) {
  while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
  return text;
}

bool is_word(std::string_view text, std::string_view upper) {
  if (text.size() != upper.size()) return false;
  return std::equal(text.begin(), text.end(), upper.begin(),
                    [](char a, char b) { return (a >= 'a' && a <= 'z' ? a - 'a' + 'A' : a) == b; });
}

bool is_unavailable(std::string_view text) { return is_word(text, "UNAVAILABLE"); }

double read_number(std::string_view text) {
  double value = unknown_value;
  if (read_plain(text, value)) return value;
  return read_any(trim(text));
}

Reading Vocabulary::read(Role role, std::string_view text) const {
  double value = unknown_value;
  const bool is_worded = role == Role::execution || role == Role::power_state || role == Role::availability;
  if (!is_worded && read_plain(text, value)) return {value, true};
  text = trim(text);
  if (is_unavailable(text)) return {};
  if (role == Role::execution) return read_execution(text);
  if (role == Role::power_state) {
    if (text == "ON") return {1.0, true};
    return text == "OFF" ? Reading{0.0, true} : Reading{unknown_value, false};
  }
  if (role == Role::availability) return text == "AVAILABLE" ? Reading{1.0, true} : Reading{unknown_value, false};
  value = read_any(text);
  return {value, !counters::is_unknown(value)};
}

Reading Vocabulary::read_execution(std::string_view word) const {
  if (word.empty()) return {unknown_value, false};
  if (const auto alias = aliases_.find(word); alias != aliases_.end()) word = alias->second;
  if (is_unavailable(word)) return {};
  if (word == "ACTIVE") return {1.0, true};
  const auto place = std::find(execution_words.begin(), execution_words.end(), word);
  if (place != execution_words.end()) return {-static_cast<double>(place - execution_words.begin()), true};
  return {-1e3 - static_cast<double>(hash_text(word) >> 16), false};
}

}  // namespace hw::feeds
