#include "libs/passwords/password_hash.h"

#include <array>
#include <new>

#include <sodium.h>

#include "libs/values/assert.h"
#include "libs/values/secret.h"

namespace hw::passwords {
namespace {

void begin() {
  static const bool is_ready = sodium_init() >= 0;
  HW_ASSERT(is_ready, "libsodium begins");
}

}  // namespace

std::string hash_password(std::string_view password) {
  begin();
  std::array<char, crypto_pwhash_STRBYTES> hash{};
  if (crypto_pwhash_str_alg(hash.data(), password.data(), password.size(), hash_passes, hash_bytes,
                            crypto_pwhash_ALG_ARGON2ID13) != 0) {
    throw std::bad_alloc{};
  }
  return hash.data();
}

bool is_password_of(std::string_view hash, std::string_view password) {
  begin();
  const std::string terminated{hash};
  return crypto_pwhash_str_verify(terminated.c_str(), password.data(), password.size()) == 0;
}

const std::string& hash_of_nobody() {
  static const std::string hash = hash_password(secret_bytes(32));
  return hash;
}

}  // namespace hw::passwords
