#include "libs/values/sha256.h"

#include <openssl/evp.h>

#include "libs/values/assert.h"

namespace hw {

Sha256 sha256(std::string_view bytes) {
  Sha256 hash{};
  const int status = EVP_Digest(bytes.data(), bytes.size(), hash.data(), nullptr, EVP_sha256(), nullptr);
  HW_ASSERT(status == 1, "OpenSSL has SHA-256");
  return hash;
}

std::string print_hex(const Sha256& hash) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string hex;
  for (const std::uint8_t byte : hash) {
    hex += digits[byte >> 4];
    hex += digits[byte & 0xf];
  }
  return hex;
}

}  // namespace hw
