#include "libs/passwords/password_strength.h"

#include <cmath>
#include <vector>

#include <zxcvbn.h>

namespace hw::passwords {
namespace {

constexpr std::size_t looked_at_max = 100;  // its time grows with the cube of the length
const double ln_2 = std::log(2.0);
const double ln_10 = std::log(10.0);

}  // namespace

double guesses_power(std::string_view password, std::span<const std::string> words) {
  const std::string looked_at{password.substr(0, looked_at_max)};
  std::vector<const char*> listed;
  for (const std::string& word : words) listed.push_back(word.c_str());
  listed.push_back(nullptr);
  return ZxcvbnMatch(looked_at.c_str(), listed.data(), nullptr) * ln_2 / ln_10;
}

}  // namespace hw::passwords
