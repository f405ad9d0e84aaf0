#pragma once
// UTF-8 (RFC 3629), byte by byte.

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace hw::formats {

// The length in bytes (1 to 4) of the letter that the text begins with; 0 where it begins with no UTF-8: stray or
// missing continuation bytes, overlong forms, surrogates, beyond U+10FFFF, or an empty text.
std::size_t utf8_letter_bytes(std::string_view text);
bool is_utf8(std::string_view text);
// A code point up to U+10FFFF that is no surrogate; anything else becomes U+FFFD.
void append_utf8(std::string& out, std::uint32_t code_point);

}  // namespace hw::formats
