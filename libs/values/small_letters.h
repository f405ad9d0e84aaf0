#pragma once
// Texts without regard to capitals, for searching.

#include <string>
#include <string_view>

namespace hw {

// The UTF-8 text with the capitals of ASCII, Latin-1, Latin Extended-A, Greek and Cyrillic as small letters, by the
// Unicode Standard's simple lower-case mappings (UnicodeData.txt, from memory; those that change nothing but the case
// and keep the length in bytes). Everything else, bytes that are no UTF-8 too, stays as it is. "ÖL" is "öl"; "ß" stays.
std::string in_small_letters(std::string_view text);

}  // namespace hw
