#pragma once
// How many guesses a password stands, by zxcvbn (Wheeler, "zxcvbn: Low-Budget Password Strength Estimation", USENIX
// Security 2016): it knows lists of common passwords, names and words, keyboard walks, dates, repeats and sequences.

#include <span>
#include <string>
#include <string_view>

namespace hw::passwords {

// The power of ten of the guesses that somebody needs who tries likely passwords first: 3.2 for "correct horse" tried
// 10^3.2 times. `words` are those that stand near the person: names, the plant. Only the first 100 bytes are looked at.
// 0 for an empty password.
double guesses_power(std::string_view password, std::span<const std::string> words);

}  // namespace hw::passwords
