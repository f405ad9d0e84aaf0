#pragma once
// The text of a response's status line and headers, with what the server adds to every response.

#include <cstdint>
#include <optional>
#include <string>

#include "libs/http/message.h"
#include "libs/values/instant.h"

namespace hw::http {

struct Framing {
  std::optional<std::uint64_t> body_bytes;  // none: the body ends when the line is closed, or with the last chunk
  bool keep_alive = false;
  bool is_chunked = false;
};

// Ends with the empty line. Control characters in the handler's headers become blanks, so that no value can add a
// header.
std::string print_head(const Response& response, const Framing& framing, Instant now);

// Sun, 06 Nov 1994 08:49:37 GMT (RFC 9110 section 5.6.7).
std::string print_http_date(Instant instant);

}  // namespace hw::http
