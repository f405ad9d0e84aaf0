#pragma once
// The header lines of a part: "Name: value", one a line, CRLF or LF. Folded lines are refused.

#include <string_view>

#include "libs/http/headers.h"
#include "libs/values/result.h"

namespace hw::http {

// A token of RFC 9110 section 5.6.2: what a method or a header name may consist of.
bool is_token(std::string_view text);

// The lines without the empty one at their end. Refuses (peer_misbehaved) a line that is not a header.
Result<Headers> parse_field_lines(std::string_view lines);

}  // namespace hw::http
