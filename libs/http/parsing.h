#pragma once
// What the readers of requests and of answers share around Beast's parser.

#include <cstddef>
#include <string_view>

#include <boost/beast/core/string.hpp>

namespace hw::http {

// A chunk's size with its extensions, or a piece of the trailer.
inline constexpr std::size_t chunk_line_bytes_max = 4096;

// Beast 1.81 gave these bytes back, and may have read in them the last chunk's line ("0" CR LF). It must not be given
// them again before a whole end may be there ("0" CR LF CR LF), which it takes for granted: it would end the program.
// At least as many bytes are still to come.
inline bool is_short_of_an_end(std::string_view given_back) {
  return given_back.size() < std::string_view("0\r\n\r\n").size() && given_back.starts_with('0') &&
         given_back.find("\r\n") != std::string_view::npos;
}

inline std::string_view view(boost::beast::string_view text) { return {text.data(), text.size()}; }

}  // namespace hw::http
