#include "libs/http/head_check.h"

#include <algorithm>

#include <fmt/format.h>

#include "libs/http/field_lines.h"

namespace hw::http {
namespace {

using MaybeRefusal = std::optional<Refusal>;

MaybeRefusal bad(std::string detail) { return Refusal{400, std::move(detail)}; }

bool is_control(char c) { return (static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7F; }

MaybeRefusal check_version(std::string_view version) {
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  if (version == "HTTP/1.1" || version == "HTTP/1.0") return std::nullopt;
  if (version.size() == 8 && version.starts_with("HTTP/") && is_digit(version[5]) && version[6] == '.' &&
      is_digit(version[7])) {
    return Refusal{505, fmt::format("{} is not spoken here; HTTP/1.1 is", version)};
  }
  return bad("the request line does not end in HTTP/1.1");
}

// method SP target SP version
MaybeRefusal check_request_line(std::string_view line) {
  const auto first = line.find(' ');
  const auto last = line.rfind(' ');
  if (first == std::string_view::npos || first == last || !is_token(line.substr(0, first))) {
    return bad("the request line is not of the form \"GET /path HTTP/1.1\"");
  }
  const std::string_view target = line.substr(first + 1, last - first - 1);
  if (target.empty() || std::any_of(target.begin(), target.end(), [](char c) { return c <= ' ' || c > '~'; })) {
    return bad("the request's target has blanks or characters that are not escaped");
  }
  return check_version(line.substr(last + 1));
}

MaybeRefusal check_field(std::string_view line) {
  if (line.front() == ' ' || line.front() == '\t') return bad("a header is folded over two lines");
  const auto colon = line.find(':');
  if (colon == std::string_view::npos || !is_token(line.substr(0, colon))) {
    return bad("a header line is not of the form \"Name: value\"");
  }
  if (std::any_of(line.begin(), line.end(), is_control)) return bad("a header has control characters");
  return std::nullopt;
}

MaybeRefusal check_framing(const Headers& headers, bool is_http_1_0) {
  const auto coding = headers.find("Transfer-Encoding");
  const auto length = headers.find("Content-Length");
  if (coding && length) return bad("a request has either Transfer-Encoding or Content-Length");
  if (headers.count("Content-Length") > 1) return bad("a request has one Content-Length");
  if (length &&
      (length->empty() || !std::all_of(length->begin(), length->end(), [](char c) { return c >= '0' && c <= '9'; }))) {
    return bad("Content-Length is a number");
  }
  if (!coding) return std::nullopt;
  if (is_http_1_0) return bad("HTTP/1.0 has no Transfer-Encoding");
  if (headers.count("Transfer-Encoding") > 1) return bad("a request has one Transfer-Encoding");
  if (!same_name(*coding, "chunked")) return Refusal{501, "the only Transfer-Encoding that is taken is chunked"};
  return std::nullopt;
}

MaybeRefusal check_host(const Headers& headers, bool is_http_1_0) {
  const std::size_t hosts = headers.count("Host");
  if (hosts > 1 || (hosts == 0 && !is_http_1_0)) return bad("a request has one Host header");
  return std::nullopt;
}

}  // namespace

std::optional<Refusal> check_head(std::string_view head) {
  const auto first_end = head.find("\r\n");
  const std::string_view request_line = head.substr(0, first_end);
  if (auto refusal = check_request_line(request_line)) return refusal;
  const std::string_view fields = head.substr(first_end + 2, head.size() - first_end - 4);
  for (std::string_view left = fields; !left.empty();) {
    const auto end = std::min(left.find("\r\n"), left.size());
    if (auto refusal = check_field(left.substr(0, end))) return refusal;
    left.remove_prefix(std::min(end + 2, left.size()));
  }
  const auto headers = parse_field_lines(fields);
  if (!headers) return bad(headers.error().message);
  const bool is_http_1_0 = request_line.ends_with("1.0");
  if (auto refusal = check_framing(*headers, is_http_1_0)) return refusal;
  return check_host(*headers, is_http_1_0);
}

}  // namespace hw::http
