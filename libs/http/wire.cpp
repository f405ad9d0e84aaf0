#include "libs/http/wire.h"

#include <boost/asio/redirect_error.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/asio/write.hpp>

namespace hw::http {
namespace {

namespace asio = boost::asio;
using boost::system::error_code;

constexpr std::size_t piece_bytes_max = 16 * 1024;
constexpr std::size_t sealed_bytes_max = 64 * 1024;
constexpr Duration farewell_max = Duration::seconds(2);
constexpr std::size_t farewell_bytes_max = 1024 * 1024;

}  // namespace

Wire::Wire(asio::ip::tcp::socket socket) : socket_(std::move(socket)), deadline_(socket_.get_executor()) {
  error_code ignored;
  socket_.set_option(asio::ip::tcp::no_delay(true), ignored);
}

std::string Wire::peer_address() const {
  error_code error;
  const auto endpoint = socket_.remote_endpoint(error);
  return error ? "" : endpoint.address().to_string();
}

void Wire::expire_after(Duration duration) {
  is_late_ = false;
  deadline_.expires_after(std::chrono::nanoseconds(duration.ns));
  deadline_.async_wait([self = shared_from_this(), number = ++deadlines_](error_code error) {
    if (error || number != self->deadlines_) return;
    self->is_late_ = true;
    error_code ignored;
    self->socket_.cancel(ignored);
  });
}

void Wire::expire_never() {
  is_late_ = false;
  ++deadlines_;
  deadline_.cancel();
}

void Wire::abort() {
  is_aborted_ = true;
  expire_never();
  error_code ignored;
  socket_.close(ignored);
}

void Wire::watch_for_close(std::function<void()> gone) {
  socket_.async_wait(asio::ip::tcp::socket::wait_read,
                     [self = shared_from_this(), gone = std::move(gone)](error_code error) {
                       error_code ignored;
                       // Bytes that nobody asked for do not end the stream, but the watching: the next write tells
                       // whether the peer is there.
                       if (error || self->socket_.available(ignored) == 0) gone();
                     });
}

asio::awaitable<bool> Wire::receive() {
  if (is_late_ || is_aborted_) co_return false;
  error_code error;
  received_.resize(piece_bytes_max);
  const std::size_t count =
      co_await socket_.async_read_some(asio::buffer(received_), asio::redirect_error(asio::use_awaitable, error));
  received_.resize(error ? 0 : count);
  co_return !error && !is_aborted_;
}

asio::awaitable<bool> Wire::send(std::string_view bytes) {
  if (is_late_ || is_aborted_) co_return false;
  if (bytes.empty()) co_return true;
  error_code error;
  co_await asio::async_write(socket_, asio::buffer(bytes), asio::redirect_error(asio::use_awaitable, error));
  co_return !error;
}

asio::awaitable<bool> Wire::shake_hands(const TlsContext& context) {
  tls_ = TlsSession::accept(context);
  for (;;) {
    const auto outcome = tls_->handshake();
    const std::string answer = tls_->take();
    const bool sent = co_await send(answer);
    if (!sent) co_return false;
    if (outcome == TlsSession::Outcome::done) co_return true;
    if (outcome != TlsSession::Outcome::hungry) co_return false;
    const bool got = co_await receive();
    if (!got) co_return false;
    tls_->give(received_);
  }
}

asio::awaitable<bool> Wire::read(std::string& into) {
  if (!tls_) {
    const bool got = co_await receive();
    into += received_;
    co_return got;
  }
  for (;;) {
    const auto outcome = tls_->read(into);
    const std::string answer = tls_->take();
    const bool sent = co_await send(answer);
    if (!sent) co_return false;
    if (outcome == TlsSession::Outcome::done) co_return true;
    if (outcome != TlsSession::Outcome::hungry) co_return false;
    const bool got = co_await receive();
    if (!got) co_return false;
    tls_->give(received_);
  }
}

asio::awaitable<bool> Wire::write(std::string_view bytes) {
  if (!tls_) co_return co_await send(bytes);
  if (tls_->write(bytes) != TlsSession::Outcome::done) co_return false;
  const std::string sealed = tls_->take();
  co_return co_await send(sealed);
}

asio::awaitable<std::size_t> Wire::write_some(std::string_view bytes) {
  if (tls_) {
    const std::string_view piece = bytes.substr(0, sealed_bytes_max);
    const bool sent = co_await write(piece);
    co_return sent ? piece.size() : 0;
  }
  if (is_late_ || is_aborted_) co_return 0;
  error_code error;
  const std::size_t count =
      co_await socket_.async_write_some(asio::buffer(bytes), asio::redirect_error(asio::use_awaitable, error));
  co_return error ? 0 : count;
}

asio::awaitable<void> Wire::close_gently() {
  expire_after(farewell_max);
  if (tls_) {
    tls_->close();
    const std::string farewell = tls_->take();
    const bool sent = co_await send(farewell);
    if (!sent) co_return;
  }
  error_code ignored;
  socket_.shutdown(asio::ip::tcp::socket::shutdown_send, ignored);
  for (std::size_t dropped = 0; dropped < farewell_bytes_max; dropped += received_.size()) {
    const bool got = co_await receive();
    if (!got) break;
  }
}

}  // namespace hw::http
