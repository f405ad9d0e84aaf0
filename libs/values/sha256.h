#pragma once
// SHA-256 (FIPS 180-4) of bytes, by OpenSSL.

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

namespace hw {

using Sha256 = std::array<std::uint8_t, 32>;

Sha256 sha256(std::string_view bytes);

// 64 lower-case hexadecimal digits.
std::string print_hex(const Sha256& hash);

}  // namespace hw
