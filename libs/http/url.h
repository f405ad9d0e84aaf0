#pragma once
// Addresses of the form http://host[:port][/path][?query]; the host is a name, an IPv4 address or an IPv6 address in
// brackets.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "libs/http/message.h"
#include "libs/values/result.h"

namespace hw::http {

struct Url {
  std::string scheme;  // "http" or "https"
  std::string host;    // without brackets: "agent.local", "10.0.0.7", "::1"
  std::uint16_t port = 80;
  std::string target = "/";  // path and query as they are sent; begins with '/'

  // As in the Host header: the port only where it is not the scheme's own, IPv6 in brackets.
  std::string authority() const;
  // The same host with another target: with("/probe"). A path in this URL is kept in front: http://host/agent + /probe
  // = http://host/agent/probe; its query is not.
  Url with(std::string_view path_and_query) const;
  bool operator==(const Url&) const = default;
};

// Refuses other schemes, user names, fragments, blanks and control characters, ports outside 1..65535.
Result<Url> parse_url(std::string_view text);
std::string print(const Url& url);

// %41 -> A. Refuses incomplete or wrong escapes.
Result<std::string> percent_decode(std::string_view text);
// All but letters, digits and -._~ as %XX: for one segment of a path or one value of a query.
std::string percent_encode(std::string_view text);

// The path of a request's target, decoded segment by segment. Refuses "." and ".." segments in any spelling, escaped
// slashes, control characters and what is not UTF-8.
Result<std::string> parse_path(std::string_view raw);
// "a=1&b=x+y" -> {a, 1}, {b, x y}. Refuses wrong escapes.
Result<std::vector<NamedValue>> parse_query(std::string_view raw);

}  // namespace hw::http
