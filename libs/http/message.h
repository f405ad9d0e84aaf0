#pragma once
// A request as a handler sees it and the response that it gives back.

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "libs/http/headers.h"

namespace hw::http {

class ByteStream;    // byte_stream.h
class Subscription;  // event_stream.h

struct NamedValue {
  std::string name;
  std::string value;
};

struct Request {
  std::string method;  // as sent: "GET"
  std::string target;  // as sent: "/api/machines/m%201?from=2026-01-01"
  std::string
      path;  // decoded, UTF-8, begins with '/', no "." or ".." segments, no control characters: "/api/machines/m 1"
  std::vector<NamedValue> query;        // decoded, in order; a name without '=' has an empty value
  std::vector<NamedValue> path_values;  // what the router took from the path: {"machine", "m 1"}
  Headers headers;
  std::string body;
  std::string remote_address;  // "127.0.0.1" or "::1"
  bool is_tls = false;         // came over TLS

  // What a guard (router.h) found out about who asks.
  std::string user;                                    // a person's name; empty: nobody, or a program
  std::optional<std::vector<std::string>> limited_to;  // the things that the user may see; nothing: no limit

  // The first value of that name in the query.
  std::optional<std::string_view> query_value(std::string_view name) const;
  // What stands in the path for {name} of the route's pattern. A name that the pattern does not have is our own
  // mistake.
  std::string_view path_value(std::string_view name) const;
};

// A body that many responses share, so that a file in memory is sent without a copy.
using SharedBytes = std::shared_ptr<const std::string>;

// A file that is read while it is sent. Its length is taken when the sending begins.
struct FileBody {
  std::filesystem::path path;
};

// Events as they come (event_stream.h) until the channel or the client closes.
struct EventBody {
  std::shared_ptr<Subscription> subscription;
};

// Bytes as they come (byte_stream.h) until the stream or the client closes, in chunks; HTTP/1.0 clients are not thought
// of. The server adds nothing of its own, no heartbeat either.
struct StreamBody {
  std::shared_ptr<ByteStream> stream;
};

struct Response {
  int status = 200;
  Headers headers;  // Content-Length, Date, Connection and the security headers are the server's affair
  std::variant<std::string, SharedBytes, FileBody, EventBody, StreamBody> body;

  static Response empty(int status);  // 204, 304
  static Response of(int status, std::string content_type, std::string body);
  static Response json(std::string body, int status = 200) { return of(status, "application/json", std::move(body)); }
  static Response json(SharedBytes body) { return {200, {{"Content-Type", "application/json"}}, std::move(body)}; }
  static Response file(std::string content_type, std::filesystem::path path);
  static Response events(std::shared_ptr<Subscription> subscription);
  static Response stream(std::string content_type, std::shared_ptr<ByteStream> stream) {
    return {200, {{"Content-Type", std::move(content_type)}}, StreamBody{std::move(stream)}};
  }

  // The body where it is in memory, else empty: for tests and for the client's answers.
  std::string_view text() const;
};

// Answers one request. Called on a worker thread, several at once.
using Handler = std::function<Response(Request)>;

// The standard's phrase for a status, for example "Not Found"; "Status" where there is none.
std::string_view phrase_of(int status);

}  // namespace hw::http
