#include "libs/values/secret.h"

#include <algorithm>

#include <openssl/rand.h>

#include "libs/values/assert.h"

namespace hw {
namespace {

constexpr std::string_view letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

unsigned byte_at(std::string_view bytes, std::size_t at) {
  return at < bytes.size() ? static_cast<unsigned char>(bytes[at]) : 0U;
}

}  // namespace

std::string secret_bytes(std::size_t count) {
  std::string bytes(count, '\0');
  HW_ASSERT(RAND_bytes(reinterpret_cast<unsigned char*>(bytes.data()), static_cast<int>(count)) == 1,
            "the system gives random bytes");
  return bytes;
}

std::string print_base64url(std::string_view bytes) {
  std::string out;
  for (std::size_t at = 0; at < bytes.size(); at += 3) {
    const unsigned three = byte_at(bytes, at) << 16U | byte_at(bytes, at + 1) << 8U | byte_at(bytes, at + 2);
    const std::size_t count = std::min<std::size_t>(bytes.size() - at, 3) + 1;
    for (std::size_t i = 0; i < count; ++i) out += letters[three >> (18 - 6 * i) & 0x3FU];
  }
  return out;
}

std::string parse_base64url(std::string_view text) {
  std::string bytes;
  unsigned bits = 0;
  int count = 0;
  for (const char c : text) {
    const auto value = letters.find(c);
    if (value == std::string_view::npos) continue;
    bits = bits << 6U | static_cast<unsigned>(value);
    count += 6;
    if (count < 8) continue;
    count -= 8;
    bytes += static_cast<char>(bits >> static_cast<unsigned>(count) & 0xFFU);
  }
  return bytes;
}

}  // namespace hw
