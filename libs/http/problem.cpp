#include "libs/http/problem.h"

#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "libs/http/utf8.h"
#include "libs/values/assert.h"

namespace hw::http {
namespace {

// A JSON string. What is not UTF-8 (a file name, a peer's text) becomes U+FFFD, because the answer must be valid JSON.
std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = utf8_length(text.substr(at));
    const char c = text[at];
    if (length == 0) {
      out += "\xEF\xBF\xBD";
    } else if (c == '"' || c == '\\') {
      out += {'\\', c};
    } else if (static_cast<unsigned char>(c) < 0x20) {
      out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
    } else {
      out += text.substr(at, length);
    }
    at += length == 0 ? 1 : length;
  }
  return out + '"';
}

template <class Value, class Print>
std::string object_of(const std::map<std::string, Value>& values, Print print) {
  std::vector<std::string> members;
  for (const auto& [name, value] : values)
    members.push_back(fmt::format("{}:{}", quoted(std::string_view{name}), print(value)));
  return fmt::format("{{{}}}", fmt::join(members, ","));
}

std::string printed(const Saying& saying) {
  return fmt::format(R"(,"saying":{{"code":{},"texts":{},"numbers":{}}})", quoted(std::string_view{saying.code}),
                     object_of(saying.texts, quoted),
                     object_of(saying.numbers, [](double number) { return fmt::format("{}", number); }));
}

Response answer(int status, std::string_view detail, std::string_view more) {
  return Response::of(status, "application/problem+json",
                      fmt::format(R"({{"type":"about:blank","title":{},"status":{},"detail":{}{}}})",
                                  quoted(phrase_of(status)), status, quoted(detail), more));
}

}  // namespace

int status_of(ErrorCode code) {
  switch (code) {
    case ErrorCode::bad_input:
    case ErrorCode::wrong_usage:
      return 400;
    case ErrorCode::not_joined:
    case ErrorCode::not_signed_in:
      return 401;
    case ErrorCode::not_allowed:
      return 403;
    case ErrorCode::not_found:
      return 404;
    case ErrorCode::conflict:
    case ErrorCode::in_use:
      return 409;
    case ErrorCode::too_large:
      return 413;
    case ErrorCode::too_often:
      return 429;
    case ErrorCode::corrupt:
      return 500;
    case ErrorCode::unsupported:
      return 501;
    case ErrorCode::unreachable:
    case ErrorCode::peer_misbehaved:
      return 502;
    case ErrorCode::timed_out:
      return 504;
    case ErrorCode::disk_full:
      return 507;
  }
  HW_ASSERT(false, "an error code without a status");
}

Response problem(const Error& error) {
  const std::string saying = error.saying ? printed(*error.saying) : "";
  return answer(status_of(error.code), error.message, fmt::format(R"(,"code":"{}"{})", word_of(error.code), saying));
}

Response problem(int status, std::string_view detail) { return answer(status, detail, ""); }

}  // namespace hw::http
