#include "libs/values/small_letters.h"

namespace hw {
namespace {

// Of a letter that UTF-8 writes in two bytes: U+0080 to U+07FF.
unsigned small(unsigned letter) {
  if (letter >= 0xC0 && letter <= 0xDE && letter != 0xD7) return letter + 0x20;  // À to Þ, without the times sign
  const bool is_even_pair =
      (letter >= 0x100 && letter <= 0x137 && letter != 0x130) || (letter >= 0x14A && letter <= 0x177);
  if (is_even_pair) return letter | 1u;  // Ā ā, Ē ē ...: the capital is even
  const bool is_odd_pair = (letter >= 0x139 && letter <= 0x148) || (letter >= 0x179 && letter <= 0x17E);
  if (is_odd_pair) return letter + (letter & 1u);  // Ĺ ĺ, Ź ź ...: the capital is odd
  if (letter == 0x178) return 0xFF;                // Ÿ
  if (letter >= 0x391 && letter <= 0x3AB && letter != 0x3A2) return letter + 0x20;  // Α to Ϋ
  if (letter >= 0x400 && letter <= 0x40F) return letter + 0x50;                     // Ѐ to Џ
  if (letter >= 0x410 && letter <= 0x42F) return letter + 0x20;                     // А to Я
  return letter;
}

unsigned byte_of(char c) { return static_cast<unsigned char>(c); }

bool is_pair(std::string_view text, std::size_t at) {
  return (byte_of(text[at]) & 0xE0u) == 0xC0u && at + 1 < text.size() && (byte_of(text[at + 1]) & 0xC0u) == 0x80u;
}

}  // namespace

std::string in_small_letters(std::string_view text) {
  std::string out(text);
  for (std::size_t at = 0; at < out.size(); ++at) {
    if (out[at] >= 'A' && out[at] <= 'Z') out[at] = static_cast<char>(out[at] - 'A' + 'a');
    if (!is_pair(out, at)) continue;
    const unsigned letter = small((byte_of(out[at]) & 0x1Fu) << 6 | (byte_of(out[at + 1]) & 0x3Fu));
    out[at] = static_cast<char>(0xC0u | letter >> 6);
    out[++at] = static_cast<char>(0x80u | (letter & 0x3Fu));
  }
  return out;
}

}  // namespace hw
