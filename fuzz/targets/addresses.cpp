// What is printed is read back the same; a path that is let in leads nowhere but down.

#include "fuzz/targets.h"
#include "libs/http/url.h"
#include "libs/values/assert.h"

namespace hw::fuzz {
namespace {

void expect_plain_path(std::string_view path) {
  HW_ASSERT(path.starts_with('/') || path == "*", "a path begins with a slash");
  HW_ASSERT((std::string(path) + '/').find("/../") == std::string::npos, "a path has no segment that leads up");
  for (const char c : path) HW_ASSERT(static_cast<unsigned char>(c) >= 0x20 && c != 0x7F, "no control characters");
}

}  // namespace

void addresses(std::string_view input) {
  if (const auto url = http::parse_url(input)) {
    const std::string printed = print(*url);
    const auto again = http::parse_url(printed);
    HW_ASSERT(again && *again == *url, "an address is read back as it was printed");
    HW_ASSERT(url->port != 0, "a port is a number from 1 on");
    url->with("/sample?from=1");
  }
  const auto decoded = http::percent_decode(http::percent_encode(input));
  HW_ASSERT(decoded && *decoded == input, "what was escaped is read back");
  const std::string_view raw_path = input.substr(0, input.find('?'));
  if (const auto path = http::parse_path(raw_path)) expect_plain_path(*path);
  if (raw_path.size() < input.size()) http::parse_query(input.substr(raw_path.size() + 1));
}

}  // namespace hw::fuzz
