#pragma once
// What the readers of requests and of answers share around Beast's parser.

#include <cstddef>
#include <string_view>

#include <boost/beast/core/string.hpp>

namespace hw::http {

// A chunk's size with its extensions, or a piece of the trailer.
inline constexpr std::size_t chunk_line_bytes_max = 4096;

// What Beast 1.81 leaves of the bytes that it was given is the beginning of a chunk's line, and it must not be given
// fewer than so many again: where that line is the last one ("0"), it takes for granted that a whole end is there
// ("0" CR LF CR LF) and ends the program if not. Whatever the line is, at least as many bytes are still to come.
inline constexpr std::size_t chunk_end_bytes = 5;

inline std::string_view view(boost::beast::string_view text) { return {text.data(), text.size()}; }

}  // namespace hw::http
