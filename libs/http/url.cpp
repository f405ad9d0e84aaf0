#include "libs/http/url.h"

#include <algorithm>
#include <charconv>

#include "libs/http/utf8.h"

namespace hw::http {
namespace {

constexpr std::string_view unreserved_marks = "-._~";

bool is_letter_or_digit(char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

bool is_control(char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

std::uint16_t usual_port(std::string_view scheme) { return scheme == "https" ? 443 : 80; }

Result<std::uint16_t> parse_port(std::string_view text) {
  unsigned port = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), port);
  if (error != std::errc() || end != text.data() + text.size() || port == 0 || port > 65535) {
    return refuse(ErrorCode::bad_input, "\"{}\" is no port; a port is a number from 1 to 65535", text);
  }
  return static_cast<std::uint16_t>(port);
}

bool is_host_char(char c) { return is_letter_or_digit(c) || c == '-' || c == '.' || c == '_'; }
bool is_ipv6_char(char c) { return hex_digit(c) >= 0 || c == ':' || c == '.'; }

// Splits "host:port" or "[::1]:port"; what follows the host is left in `text`.
Result<std::string> take_host(std::string_view& text) {
  const bool bracketed = !text.empty() && text.front() == '[';
  const auto end = bracketed ? text.find(']') : std::min(text.find(':'), text.size());
  if (end == std::string_view::npos) return refuse(ErrorCode::bad_input, "the bracket [ of the address is not closed");
  const std::string_view host = bracketed ? text.substr(1, end - 1) : text.substr(0, end);
  if (host.empty() || !std::all_of(host.begin(), host.end(), bracketed ? is_ipv6_char : is_host_char)) {
    return refuse(ErrorCode::bad_input, "\"{}\" is no host; right is a name or an address such as 10.0.0.7 or [::1]",
                  host);
  }
  text.remove_prefix(bracketed ? end + 1 : end);
  return std::string(host);
}

Result<void> read_authority(std::string_view text, Url& url) {
  if (text.find('@') != std::string_view::npos) {
    return refuse(ErrorCode::bad_input, "an address with a user name is not taken");
  }
  auto host = take_host(text);
  if (!host) return refuse(host.error());
  url.host = *host;
  url.port = usual_port(url.scheme);
  if (text.empty()) return {};
  if (text.front() != ':') return refuse(ErrorCode::bad_input, "\"{}\" after the host is no port", text);
  const auto port = parse_port(text.substr(1));
  if (!port) return refuse(port.error());
  url.port = *port;
  return {};
}

Result<Url> read_url(std::string_view text) {
  if (std::any_of(text.begin(), text.end(), [](char c) { return is_control(c) || c == ' ' || c == '#'; })) {
    return refuse(ErrorCode::bad_input, "an address has no blanks, control characters or '#'");
  }
  Url url;
  for (std::string_view scheme : {"http", "https"}) {
    if (text.size() > scheme.size() + 3 && same_name(text.substr(0, scheme.size() + 3), std::string(scheme) + "://")) {
      url.scheme = scheme;
    }
  }
  if (url.scheme.empty()) return refuse(ErrorCode::bad_input, "an address begins with http:// or https://");
  text.remove_prefix(url.scheme.size() + 3);
  const auto slash = std::min(text.find_first_of("/?"), text.size());
  const auto done = read_authority(text.substr(0, slash), url);
  if (!done) return refuse(done.error());
  text.remove_prefix(slash);
  url.target = (text.empty() || text.front() == '?' ? "/" : "") + std::string(text);
  return url;
}

Result<std::string> decode(std::string_view text, bool plus_is_blank) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '+' && plus_is_blank) {
      out += ' ';
    } else if (text[i] != '%') {
      out += text[i];
    } else {
      const int high = i + 2 < text.size() ? hex_digit(text[i + 1]) : -1;
      const int low = i + 2 < text.size() ? hex_digit(text[i + 2]) : -1;
      if (high < 0 || low < 0) {
        return refuse(ErrorCode::bad_input, "\"{}\" is no escape; right is % and two hexadecimal digits",
                      text.substr(i, 3));
      }
      out += static_cast<char>(high * 16 + low);
      i += 2;
    }
  }
  return out;
}

Result<std::string> decode_segment(std::string_view raw) {
  auto segment = percent_decode(raw);
  if (!segment) return segment;
  if (*segment == "." || *segment == "..") return refuse(ErrorCode::bad_input, "a path has no . or .. segments");
  if (segment->find('/') != std::string::npos) return refuse(ErrorCode::bad_input, "a path has no escaped slashes");
  if (std::any_of(segment->begin(), segment->end(), is_control)) {
    return refuse(ErrorCode::bad_input, "a path has no control characters");
  }
  if (!is_utf8(*segment)) return refuse(ErrorCode::bad_input, "a path is written in UTF-8");
  return segment;
}

}  // namespace

std::string Url::authority() const {
  const std::string name = host.find(':') == std::string::npos ? host : "[" + host + "]";
  return port == usual_port(scheme) ? name : fmt::format("{}:{}", name, port);
}

Url Url::with(std::string_view path_and_query) const {
  Url other = *this;
  other.target = target.substr(0, target.find('?'));
  while (!other.target.empty() && other.target.back() == '/') other.target.pop_back();
  other.target += path_and_query;
  return other;
}

Result<Url> parse_url(std::string_view text) {
  auto url = read_url(text);
  if (!url) return refuse(url.error().at(fmt::format("\"{}\"", text)));
  return url;
}

std::string print(const Url& url) { return fmt::format("{}://{}{}", url.scheme, url.authority(), url.target); }

Result<std::string> percent_decode(std::string_view text) { return decode(text, false); }

std::string percent_encode(std::string_view text) {
  std::string out;
  for (char c : text) {
    if (is_letter_or_digit(c) || unreserved_marks.find(c) != std::string_view::npos) {
      out += c;
    } else {
      out += fmt::format("%{:02X}", static_cast<unsigned char>(c));
    }
  }
  return out;
}

Result<std::string> parse_path(std::string_view raw) {
  if (raw.empty() || raw.front() != '/') return refuse(ErrorCode::bad_input, "a path begins with a slash");
  std::string path;
  while (!raw.empty()) {
    raw.remove_prefix(1);
    const auto slash = std::min(raw.find('/'), raw.size());
    auto segment = decode_segment(raw.substr(0, slash));
    if (!segment) return segment;
    path += '/' + *segment;
    raw.remove_prefix(slash);
  }
  return path;
}

Result<std::vector<NamedValue>> parse_query(std::string_view raw) {
  std::vector<NamedValue> values;
  while (!raw.empty()) {
    const auto end = std::min(raw.find('&'), raw.size());
    const std::string_view pair = raw.substr(0, end);
    raw.remove_prefix(std::min(end + 1, raw.size()));
    if (pair.empty()) continue;
    const auto equals = std::min(pair.find('='), pair.size());
    auto name = decode(pair.substr(0, equals), true);
    auto value = decode(pair.substr(std::min(equals + 1, pair.size())), true);
    if (!name) return refuse(name.error());
    if (!value) return refuse(value.error());
    values.push_back({std::move(*name), std::move(*value)});
  }
  return values;
}

}  // namespace hw::http
