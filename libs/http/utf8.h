#pragma once
// Where UTF-8 is valid (RFC 3629): no overlong forms, no surrogates, nothing above U+10FFFF.

#include <cstddef>
#include <string_view>

namespace hw::http {

// How many bytes the first character of the text takes, 1 to 4; 0 where it is not UTF-8 or the text is empty.
std::size_t utf8_length(std::string_view text);

bool is_utf8(std::string_view text);

}  // namespace hw::http
