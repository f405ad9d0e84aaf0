#include "src/access/secret_rules.h"

#include <algorithm>
#include <vector>

#include "libs/passwords/password_strength.h"
#include "libs/values/characters.h"

namespace hw::access {
namespace {

// "Ilka Brandorf" also as ilka, brandorf and ilkabrandorf.
std::vector<std::string> with_parts(std::span<const std::string> words) {
  std::vector<std::string> all;
  for (const std::string& word : words) {
    std::string joined = word;
    std::erase(joined, ' ');
    all.push_back(std::move(joined));
    for (std::size_t at = 0; at < word.size();) {
      const auto end = std::min(word.find(' ', at), word.size());
      if (end > at) all.push_back(word.substr(at, end - at));
      at = end + 1;
    }
  }
  return all;
}

}  // namespace

Result<void> check_password(std::string_view password, std::span<const std::string> words) {
  const std::size_t length = characters_in(password);
  if (length < password_least) {
    return refuse(ErrorCode::bad_input, Saying{"password-short", {}, {{"least", password_least}}},
                  "password: {} characters at least; a sentence is easy to keep in mind", password_least);
  }
  if (length > password_most) {
    return refuse(ErrorCode::bad_input, Saying{"password-long", {}, {{"most", password_most}}},
                  "password: {} characters at most", password_most);
  }
  if (passwords::guesses_power(password, with_parts(words)) >= password_power_least) return {};
  return refuse(ErrorCode::bad_input, Saying{"password-common"},
                "password: it would be guessed early, because it is common or made of common words, names or rows of "
                "keys; take some words that do not belong together");
}

Result<void> check_pin(std::string_view pin) {
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  if (pin.size() < 4 || pin.size() > 6 || !std::all_of(pin.begin(), pin.end(), is_digit)) {
    return refuse(ErrorCode::bad_input, Saying{"pin-form"}, "pin: 4 to 6 digits");
  }
  const auto goes_by = [pin](int step) {
    return std::adjacent_find(pin.begin(), pin.end(), [step](char a, char b) { return b - a != step; }) == pin.end();
  };
  if (!goes_by(0) && !goes_by(1) && !goes_by(-1)) return {};
  return refuse(ErrorCode::bad_input, Saying{"pin-simple"},
                "pin: not the same digit throughout and not digits in a row");
}

}  // namespace hw::access
