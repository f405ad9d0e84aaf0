#pragma once
// A blocking client for feeds: every wait has an end, nothing is held beyond the limits, and another thread can end it.
// It follows no redirects and asks for no compression.
//
// Errors: unreachable (name unknown, connection refused or lost, cancelled), timed_out, peer_misbehaved (not HTTP, a
// redirect, a body shorter than said), too_large. One sentence that names the URL.

#include <functional>
#include <string_view>

#include "libs/http/cancel.h"
#include "libs/http/message.h"
#include "libs/http/url.h"
#include "libs/values/instant.h"
#include "libs/values/result.h"

namespace hw::http {

struct GetOptions {
  Duration connect_within = Duration::seconds(5);  // name look-up, connection and TLS together
  Duration answer_within = Duration::seconds(30);  // from the call to the last byte
  std::size_t body_bytes_max = 64 * 1024 * 1024;
  Headers headers;      // besides Host, Connection and, unless given, Accept
  std::string ca_file;  // https: certificates to trust instead of the system's; empty: the system's
  CancelToken cancel;
};

// The whole answer, whatever its status (redirects aside): a 404 with its body is an answer.
Result<Response> get(const Url& url, const GetOptions& options = {});
// The same for a request of any method with a body, which is sent with its length. A Host among the headers is sent
// instead of the URL's.
Result<Response> send(const Url& url, std::string_view method, std::string_view body, const GetOptions& options = {});

struct StreamOptions {
  Duration connect_within = Duration::seconds(5);
  Duration silence_max = Duration::seconds(20);  // between any two pieces, also before the head
  Headers headers;
  std::string ca_file;
  CancelToken cancel;
};

// Called once, before any data. An Error ends the call with it.
using OnHead = std::function<Result<void>(int status, const Headers& headers)>;
// Called with each piece of the body as it comes, at most 64 KiB. An Error ends the call with it.
using OnData = std::function<Result<void>(std::string_view piece)>;

// Reads without an overall deadline or size until the body ends (a value), a callback refuses (its Error), the line is
// silent for too long (timed_out) or the token is cancelled (unreachable, "... was cancelled").
Result<void> get_stream(const Url& url, const StreamOptions& options, const OnHead& on_head, const OnData& on_data);

}  // namespace hw::http
