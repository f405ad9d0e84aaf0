#pragma once
// Bytes come from a line in pieces of any length; whoever reads them must not see the difference.

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace hw::fuzz {

// The whole at once, or pieces of 1 to 13 bytes whose lengths follow from the text alone.
enum class Cut { whole, in_pieces };

// Hands the text to `feed` until it says that it wants no more (false).
template <class Feed>
void feed_cut(std::string_view text, Cut cut, Feed feed) {
  std::uint64_t state = text.size();
  while (!text.empty()) {
    state = state * 6364136223846793005U + 1442695040888963407U;  // Knuth's MMIX generator, from memory
    const std::size_t length = cut == Cut::whole ? text.size() : 1 + (state >> 33U) % 13;
    if (!feed(text.substr(0, length))) return;
    text.remove_prefix(length < text.size() ? length : text.size());
  }
}

// The text up to the mark, which is taken off with it; all of it where there is no mark.
inline std::string_view take_until(std::string_view& text, std::string_view mark) {
  const std::size_t at = text.find(mark);
  const std::string_view front = text.substr(0, at);
  text.remove_prefix(at == std::string_view::npos ? text.size() : at + mark.size());
  return front;
}

}  // namespace hw::fuzz
