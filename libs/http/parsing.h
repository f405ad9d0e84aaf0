#pragma once
// What the readers of requests and of answers share around Beast's parser.

#include <cstddef>
#include <string_view>

#include <boost/beast/core/string.hpp>

namespace hw::http {

// A chunk's size with its extensions, or a piece of the trailer.
inline constexpr std::size_t chunk_line_bytes_max = 4096;

inline std::string_view view(boost::beast::string_view text) { return {text.data(), text.size()}; }

}  // namespace hw::http
