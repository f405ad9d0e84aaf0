#pragma once
// SHA-256 (FIPS 180-4) of bytes, by OpenSSL.

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

struct evp_md_ctx_st;

namespace hw {

using Sha256 = std::array<std::uint8_t, 32>;

Sha256 sha256(std::string_view bytes);

// The same of bytes that come piece by piece.
class Sha256Stream {
 public:
  Sha256Stream();
  void add(std::string_view bytes);
  Sha256 end();  // once, after the last piece

 private:
  struct Free {
    void operator()(evp_md_ctx_st* context) const;
  };
  std::unique_ptr<evp_md_ctx_st, Free> context_;
};

// 64 lower-case hexadecimal digits.
std::string print_hex(const Sha256& hash);

}  // namespace hw
