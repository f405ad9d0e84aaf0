#pragma once
// The rules for a request's head that keep two servers in a row from reading it differently (RFC 9112, request
// smuggling): what is unclear is refused and never mended. The parser behind it then sets where the body ends.

#include <optional>
#include <string>
#include <string_view>

namespace hw::http {

// Why HTTP itself refuses a request.
struct Refusal {
  int status;
  std::string detail;
};

// Checks a head with all its lines, the empty one at the end included. A value says why it is refused.
std::optional<Refusal> check_head(std::string_view head);

}  // namespace hw::http
