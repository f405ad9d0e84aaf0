#include "libs/passwords/one_time_code.h"

#include <array>

#include <fmt/format.h>
#include <openssl/crypto.h>
#include <openssl/evp.h>
#include <openssl/hmac.h>

#include "libs/values/assert.h"

namespace hw::passwords {
namespace {

constexpr std::int64_t step_s = 30;
constexpr std::size_t sha1_size = 20;
using Sha1 = std::array<unsigned char, sha1_size>;

Sha1 hmac_sha1(std::string_view key, const std::array<unsigned char, 8>& message) {
  Sha1 hash{};
  unsigned length = 0;
  const auto* const made =
      HMAC(EVP_sha1(), key.data(), static_cast<int>(key.size()), message.data(), message.size(), hash.data(), &length);
  HW_ASSERT(made && length == sha1_size, "OpenSSL has SHA-1");
  return hash;
}

std::int64_t floor_div(std::int64_t a, std::int64_t b) { return a / b - (a % b < 0 ? 1 : 0); }

}  // namespace

std::int64_t code_step(Instant now) { return floor_div(now.as_millis(), step_s * 1000); }

std::string code_of(std::string_view key, std::int64_t step, int digits) {
  HW_ASSERT(digits >= 6 && digits <= 8, "a code has 6 to 8 digits");
  std::array<unsigned char, 8> counter{};
  for (std::size_t i = 0; i < counter.size(); ++i) {
    counter[counter.size() - 1 - i] = static_cast<unsigned char>(static_cast<std::uint64_t>(step) >> (8 * i));
  }
  const Sha1 hash = hmac_sha1(key, counter);
  const std::size_t at = hash[sha1_size - 1] & 0x0FU;  // RFC 4226, section 5.3: dynamic truncation
  std::uint32_t bits = 0;
  for (std::size_t i = 0; i < 4; ++i) bits = bits << 8U | hash[at + i];
  bits &= 0x7FFF'FFFFU;
  std::uint32_t modulus = 1;
  for (int i = 0; i < digits; ++i) modulus *= 10;
  return fmt::format("{:0{}}", bits % modulus, digits);
}

std::optional<std::int64_t> step_of_code(std::string_view key, std::string_view code, Instant now, std::int64_t after) {
  const std::int64_t present = code_step(now);
  for (const std::int64_t step : {present, present - 1, present + 1}) {
    const std::string right = code_of(key, step);
    const bool is_it = right.size() == code.size() && CRYPTO_memcmp(right.data(), code.data(), right.size()) == 0;
    if (is_it && step > after) return step;
  }
  return std::nullopt;
}

std::string print_base32(std::string_view bytes) {
  constexpr std::string_view signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";
  std::string out;
  std::uint32_t bits = 0;
  int count = 0;
  for (const char byte : bytes) {
    bits = bits << 8U | static_cast<unsigned char>(byte);
    for (count += 8; count >= 5; count -= 5) out += signs[bits >> static_cast<unsigned>(count - 5) & 0x1FU];
    bits &= 0xFFU;
  }
  if (count > 0) out += signs[bits << static_cast<unsigned>(5 - count) & 0x1FU];
  return out;
}

}  // namespace hw::passwords
