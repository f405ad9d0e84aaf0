#include "libs/http/connection.h"

#include <fstream>

#include <boost/asio/post.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <fmt/format.h>

#include "libs/http/event_stream.h"
#include "libs/http/problem.h"
#include "libs/http/response_head.h"

// GCC 12 takes Asio's pair of operators for a coroutine's frame to be mismatched when it inlines one of them only.
#pragma GCC diagnostic ignored "-Wmismatched-new-delete"

namespace hw::http {
namespace {

namespace asio = boost::asio;
using boost::system::error_code;

// GCC 12 makes wrong code of some "if (co_await ...)" (it traps in the frame's dispatch); so here each co_await stands
// in a statement of its own.

constexpr std::size_t slice_bytes = 64 * 1024;  // what one write deadline is for
constexpr std::string_view continue_head = "HTTP/1.1 100 Continue\r\n\r\n";
constexpr std::string_view heartbeat_comment = ":\n\n";

// Ends a stream's calls when the sending ends, however it ends.
struct WakeGuard {
  ByteStream& stream;
  explicit WakeGuard(ByteStream& of) : stream(of) {}
  WakeGuard(const WakeGuard&) = delete;
  WakeGuard& operator=(const WakeGuard&) = delete;
  ~WakeGuard() { stream.on_wake({}); }
};

// RFC 9112 section 7.1. Nothing stays nothing: an empty chunk would be the last one.
std::string in_chunks(std::string bytes, bool is_last) {
  if (!bytes.empty()) bytes = fmt::format("{:x}\r\n{}\r\n", bytes.size(), bytes);
  if (is_last) bytes += "0\r\n\r\n";
  return bytes;
}

}  // namespace

Connection::Connection(asio::ip::tcp::socket socket, Serving& serving, std::optional<TlsContext> tls)
    : serving_(serving),
      tls_(std::move(tls)),
      wire_(std::make_shared<Wire>(std::move(socket))),
      next_event_(wire_->executor()) {}

void Connection::stop() {
  is_stopping_ = true;
  next_event_.cancel();
  if (doing_ == Doing::waiting) wire_->abort();
}

void Connection::cut_off() {
  if (doing_ != Doing::working) wire_->abort();
}

asio::awaitable<bool> Connection::begin() {
  wire_->expire_after(serving_.options.head_within);
  bool begun = true;
  if (tls_) begun = co_await wire_->shake_hands(*tls_);
  co_return begun;
}

asio::awaitable<void> Connection::serve() {
  const bool begun = co_await begin();
  if (begun) co_await serve_requests();
  wire_->abort();
}

asio::awaitable<void> Connection::turn_away() {
  const Refusal crowded{503, "there are too many connections; try again in a moment"};
  const bool begun = co_await begin();
  if (begun) co_await refuse(crowded);
  wire_->abort();
}

asio::awaitable<void> Connection::serve_requests() {
  const ServerOptions& options = serving_.options;
  for (bool keep_alive = true; keep_alive;) {
    RequestReader reader(
        {options.request_line_bytes_max, options.head_bytes_max, options.body_bytes_max, options.large_bodies});
    const bool came = co_await read_request(reader);
    if (!came) co_return;
    Request request = reader.take();
    const bool is_head = request.method == "HEAD";
    doing_ = Doing::working;
    std::optional<Response> response = co_await ask(serving_.handler, std::move(request));
    doing_ = Doing::writing;
    keep_alive = reader.keep_alive() && !is_stopping_;
    const bool sent = co_await send(*std::move(response), is_head, keep_alive);
    if (!sent) co_return;
  }
  co_await wire_->close_gently();
}

// False: no request came, or it was refused; either way the connection ends.
asio::awaitable<bool> Connection::read_request(RequestReader& reader) {
  if (received_.empty()) {
    if (is_stopping_) co_return false;
    doing_ = Doing::waiting;
    wire_->expire_after(serving_.options.idle_max);
    const bool begun = co_await wire_->read(received_);
    if (!begun) co_return false;
  }
  doing_ = Doing::reading;
  wire_->expire_after(serving_.options.head_within);
  auto state = reader.feed(received_);
  while (state == RequestReader::State::head) {
    const bool more = co_await read_more();
    if (!more) co_return false;
    state = reader.feed(received_);
  }
  if (state == RequestReader::State::body && reader.may_be_large() && serving_.options.before_large_body) {
    const bool may = co_await may_send_body(reader);
    if (!may) co_return false;
  }
  if (state == RequestReader::State::body) wire_->expire_after(serving_.options.body_within);
  if (reader.wants_continue()) co_await wire_->write(continue_head);
  while (state == RequestReader::State::body) {
    const bool more = co_await read_more();
    if (!more) co_return false;
    state = reader.feed(received_);
  }
  if (state == RequestReader::State::refused) co_await refuse(reader.refusal());
  co_return state == RequestReader::State::done;
}

asio::awaitable<bool> Connection::may_send_body(const RequestReader& reader) {
  doing_ = Doing::working;
  std::optional<Response> answer = co_await ask(serving_.options.before_large_body, reader.head());
  doing_ = answer ? Doing::writing : Doing::reading;
  const bool may = !answer;
  if (!may) co_await send_last(*std::move(answer));
  co_return may;
}

asio::awaitable<bool> Connection::read_more() {
  const bool got = co_await wire_->read(received_);
  const Refusal late{408, "the request did not come in time"};
  if (!got && wire_->is_late()) co_await refuse(late);
  co_return got;
}

asio::awaitable<void> Connection::refuse(const Refusal& refusal) {
  doing_ = Doing::writing;
  Response response = problem(refusal.status, refusal.detail);
  if (refusal.status == 503) response.headers.add("Retry-After", "5");
  co_await send_last(std::move(response));
}

asio::awaitable<void> Connection::send_last(Response response) {
  const bool sent = co_await send(std::move(response), false, false);
  if (sent) co_await wire_->close_gently();
}

// The connection goes on, on its own thread, with the answer.
asio::awaitable<std::optional<Response>> Connection::ask(const Objection& whom, Request request) {
  request.remote_address = wire_->peer_address();
  request.is_tls = tls_.has_value();
  const auto executor = wire_->executor();
  const auto start = [this, executor, &whom](auto done, Request asked) {
    asio::post(serving_.workers, [this, executor, &whom, done = std::move(done), asked = std::move(asked)]() mutable {
      std::optional<Response> response = call(whom, std::move(asked));
      asio::post(executor, [done = std::move(done), response = std::move(response)]() mutable {
        std::move(done)(std::move(response));
      });
    });
  };
  return asio::async_initiate<const asio::use_awaitable_t<>, void(std::optional<Response>)>(start, asio::use_awaitable,
                                                                                            std::move(request));
}

std::optional<Response> Connection::call(const Objection& whom, Request request) noexcept {
  const std::string what = request.method + " " + request.path;
  std::string why = "unknown";
  try {
    return whom(std::move(request));
  } catch (const std::bad_alloc&) {
    if (serving_.options.report) serving_.options.report(what + " failed: out of memory");
    return problem(503, "the server ran out of memory at this request; try again");
  } catch (const std::exception& failure) {
    why = failure.what();
  } catch (...) {
  }
  if (serving_.options.report) serving_.options.report(fmt::format("{} failed: {}", what, why));
  return problem(500, "the server failed at this request; its log says why");
}

asio::awaitable<bool> Connection::write(std::string_view bytes) {
  wire_->expire_after(serving_.options.write_within);
  for (std::size_t since = 0; !bytes.empty();) {
    const std::size_t taken = co_await wire_->write_some(bytes);
    if (taken == 0) co_return false;
    bytes.remove_prefix(taken);
    since += taken;
    if (since < slice_bytes) continue;
    wire_->expire_after(serving_.options.write_within);
    since = 0;
  }
  co_return true;
}

asio::awaitable<bool> Connection::send(Response response, bool is_head, bool keep_alive) {
  if (const auto* events = std::get_if<EventBody>(&response.body)) {
    Following following{events->subscription, heartbeat_comment, false};
    co_return co_await send_following(response, std::move(following), is_head);
  }
  if (const auto* bytes = std::get_if<StreamBody>(&response.body)) {
    Following following{bytes->stream, {}, true};
    co_return co_await send_following(response, std::move(following), is_head);
  }
  if (std::holds_alternative<FileBody>(response.body)) {
    co_return co_await send_file(std::move(response), is_head, keep_alive);
  }
  const std::string_view body = response.text();
  std::string head = print_head(response, {body.size(), keep_alive}, now());
  const bool has_body = !is_head && response.status != 204 && response.status != 304;
  // A short answer goes out in one piece.
  if (has_body && body.size() <= slice_bytes) {
    head += body;
    co_return co_await write(head);
  }
  const bool sent = co_await write(head);
  if (!sent || !has_body) co_return sent;
  co_return co_await write(body);
}

asio::awaitable<bool> Connection::send_file(Response response, bool is_head, bool keep_alive) {
  const auto& path = std::get<FileBody>(response.body).path;
  std::error_code error;
  const auto size = std::filesystem::file_size(path, error);
  std::ifstream in(path, std::ios::binary);
  if (error || !in) {
    Response missing = problem(404, "the file is not there any more");
    co_return co_await send(std::move(missing), is_head, keep_alive);
  }
  const std::string head = print_head(response, {size, keep_alive}, now());
  const bool sent = co_await write(head);
  if (!sent || is_head) co_return sent;
  std::string slice(slice_bytes, '\0');
  for (auto left = size; left > 0;) {
    const auto count = std::min<std::uintmax_t>(left, slice_bytes);
    // A file that became shorter cannot be sent as promised: the line is cut, so that the client sees it.
    if (!in.read(slice.data(), static_cast<std::streamsize>(count))) co_return false;
    const bool passed = co_await write(std::string_view(slice).substr(0, count));
    if (!passed) co_return false;
    left -= count;
  }
  co_return true;
}

// The stream ends with the line. Returns false, because nothing can follow.
asio::awaitable<bool> Connection::send_following(const Response& response, Following following, bool is_head) {
  const std::string head = print_head(response, {std::nullopt, false, following.is_chunked}, now());
  const bool sent = co_await write(head);
  if (!sent || is_head) co_return false;
  const WakeGuard guard(*following.stream);
  following.stream->on_wake([self = weak_from_this(), executor = wire_->executor()] {
    asio::post(executor, [self] {
      const auto connection = self.lock();
      if (!connection) return;
      connection->event_waits_ = true;
      connection->next_event_.cancel();
    });
  });
  wire_->watch_for_close([self = weak_from_this()] {
    const auto connection = self.lock();
    if (!connection) return;
    connection->peer_is_gone_ = true;
    connection->next_event_.cancel();
  });
  const bool ended = co_await follow(following);
  if (ended) co_await wire_->close_gently();
  co_return false;
}

// True: the stream ended on our side; false: the peer went, or was too slow.
asio::awaitable<bool> Connection::follow(const Following& following) {
  while (!peer_is_gone_) {
    event_waits_ = false;
    const bool is_last = following.stream->closed() || is_stopping_;
    std::string text = following.stream->take();
    if (text.empty() && !is_last) {
      const bool something = co_await wait_for_event();
      if (!something) text = following.heartbeat;
    }
    if (following.is_chunked) text = in_chunks(std::move(text), is_last);
    const bool sent = co_await write(text);
    if (!sent) co_return false;
    if (is_last) co_return true;
  }
  co_return false;
}

// False: the heartbeat's time has passed without anything to do.
asio::awaitable<bool> Connection::wait_for_event() {
  wire_->expire_never();
  next_event_.expires_after(std::chrono::nanoseconds(serving_.options.heartbeat.ns));
  error_code error;
  co_await next_event_.async_wait(asio::redirect_error(asio::use_awaitable, error));
  co_return event_waits_ || peer_is_gone_ || is_stopping_;
}

}  // namespace hw::http
