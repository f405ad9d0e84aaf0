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

void Sha256Stream::Free::operator()(evp_md_ctx_st* context) const { EVP_MD_CTX_free(context); }

Sha256Stream::Sha256Stream() : context_(EVP_MD_CTX_new()) {
  HW_ASSERT(context_ && EVP_DigestInit_ex(context_.get(), EVP_sha256(), nullptr) == 1, "OpenSSL has SHA-256");
}

void Sha256Stream::add(std::string_view bytes) {
  HW_ASSERT(EVP_DigestUpdate(context_.get(), bytes.data(), bytes.size()) == 1, "a digest takes bytes");
}

Sha256 Sha256Stream::end() {
  Sha256 hash{};
  HW_ASSERT(EVP_DigestFinal_ex(context_.get(), hash.data(), nullptr) == 1, "a digest ends once");
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
