#pragma once
// How long a text is for the person who writes it.

#include <algorithm>
#include <string_view>

namespace hw {

// The characters of a UTF-8 text, not its bytes: "Öl" has two.
inline std::size_t characters_in(std::string_view text) {
  const auto begins_one = [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0) != 0x80; };
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), begins_one));
}

}  // namespace hw
