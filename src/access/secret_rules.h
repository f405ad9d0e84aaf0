#pragma once
// What a password and a PIN have to be.

#include <span>
#include <string>
#include <string_view>

#include "libs/values/result.h"

namespace hw::access {

inline constexpr std::size_t password_least = 12;  // characters (NIST SP 800-63B asks for 8, ASVS 4.0 for 12; memory)
inline constexpr std::size_t password_most = 128;
// Guesses that a password has to stand, as a power of ten: with what one hash costs, years on one computer.
inline constexpr double password_power_least = 10;

// Any characters are right, and none is asked for. `words` are those that stand near the person: the name, the plant.
// Refuses (bad_input): password-short, password-long, password-common (it is common, or made of what is).
Result<void> check_password(std::string_view password, std::span<const std::string> words);

// 4 to 6 digits. Refuses (bad_input): pin-form, pin-simple (one digit throughout, or digits in a row).
Result<void> check_pin(std::string_view pin);

}  // namespace hw::access
