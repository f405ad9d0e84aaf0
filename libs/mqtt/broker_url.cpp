#include "libs/mqtt/broker_url.h"

#include <algorithm>

#include "libs/http/url.h"

namespace hw::mqtt {
namespace {

constexpr std::string_view plain_scheme = "mqtt://";
constexpr std::string_view secure_scheme = "mqtts://";

bool is_of_name(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '.';
}

Result<void> take_setting(BrokerUrl& url, const http::NamedValue& setting) {
  if (setting.name == "password_file") {
    url.password_file = setting.value;
  } else if (setting.name == "ca_file") {
    if (!url.is_secure) return refuse(ErrorCode::bad_input, "ca_file is for mqtts:// only");
    url.ca_file = setting.value;
  } else if (setting.name == "version") {
    if (setting.value != "5" && setting.value != "3.1.1") {
      return refuse(ErrorCode::bad_input, "version must be 5 or 3.1.1, not \"{}\"", setting.value);
    }
    url.version = setting.value == "5" ? Version::v5 : Version::v3_1_1;
  } else {
    return refuse(ErrorCode::bad_input, "unknown setting \"{}\"; there are password_file, ca_file, version",
                  setting.name);
  }
  return {};
}

// The part before the host; what is left is an address without a user.
Result<std::string_view> take_user(BrokerUrl& url, std::string_view rest) {
  const std::string_view authority = rest.substr(0, rest.find_first_of("/?"));
  const std::size_t at = authority.rfind('@');
  if (at == std::string_view::npos) return rest;
  if (authority.substr(0, at).find(':') != std::string_view::npos) {
    return refuse(ErrorCode::bad_input, "a password does not stand in an address: write it to a file, password_file");
  }
  HW_TAKE(user, http::percent_decode(authority.substr(0, at)));
  url.user = user;
  return rest.substr(at + 1);
}

// The port said explicitly, so that the default is not the one of http.
std::string with_port(std::string_view rest, bool is_secure) {
  const std::size_t end = std::min(rest.find_first_of("/?"), rest.size());
  const std::string_view authority = rest.substr(0, end);
  const std::size_t bracket = authority.rfind(']');
  const std::size_t colon = authority.rfind(':');
  const bool has_port = colon != std::string_view::npos && (bracket == std::string_view::npos || colon > bracket);
  return fmt::format("http://{}{}{}", authority, has_port ? "" : (is_secure ? ":8883" : ":1883"), rest.substr(end));
}

Result<void> take_target(BrokerUrl& url, std::string_view target) {
  const std::size_t mark = std::min(target.find('?'), target.size());
  const std::string_view name = target.substr(1, mark - 1);
  if (!std::all_of(name.begin(), name.end(), is_of_name)) {
    return refuse(ErrorCode::bad_input, "the name \"{}\" must be one of letters, digits, '-', '_' and '.'", name);
  }
  url.name = name;
  if (mark == target.size()) return {};
  HW_TAKE(settings, http::parse_query(target.substr(mark + 1)));
  for (const auto& setting : settings) HW_TRY(take_setting(url, setting));
  return {};
}

Result<BrokerUrl> read_url(std::string_view text) {
  BrokerUrl url;
  url.is_secure = text.starts_with(secure_scheme);
  HW_TAKE(rest, take_user(url, text.substr(url.is_secure ? secure_scheme.size() : plain_scheme.size())));
  HW_TAKE(read, http::parse_url(with_port(rest, url.is_secure)));
  url.host = read.host;
  url.port = read.port;
  HW_TRY(take_target(url, read.target));
  return url;
}

}  // namespace

std::string BrokerUrl::broker() const {
  const bool is_ipv6 = host.find(':') != std::string::npos;
  return fmt::format("{}{}{}{}:{}", is_secure ? secure_scheme : plain_scheme, is_ipv6 ? "[" : "", host,
                     is_ipv6 ? "]" : "", port);
}

bool is_broker_url(std::string_view text) { return text.starts_with(plain_scheme) || text.starts_with(secure_scheme); }

Result<BrokerUrl> parse_broker_url(std::string_view text) {
  if (!is_broker_url(text)) {
    return refuse(ErrorCode::bad_input, "\"{}\" is no broker's address: write mqtt://HOST:PORT or mqtts://HOST:PORT",
                  text.substr(0, 200));
  }
  auto url = read_url(text);
  return url ? url : refuse(url.error().at(fmt::format("\"{}\"", text.substr(0, 200))));
}

}  // namespace hw::mqtt
