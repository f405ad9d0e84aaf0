#pragma once
// The bytes of one accepted connection, plain or TLS, with one deadline for what is under way. All calls on the I/O
// thread.

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include <boost/asio/awaitable.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/steady_timer.hpp>

#include "libs/http/tls.h"
#include "libs/values/instant.h"

namespace hw::http {

class Wire : public std::enable_shared_from_this<Wire> {
 public:
  explicit Wire(boost::asio::ip::tcp::socket socket);

  // Before anything else, where the listener speaks TLS. False: no TLS came of it, or not in time.
  boost::asio::awaitable<bool> shake_hands(const TlsContext& context);
  // Appends what has come, up to 16 KiB. False: the peer closed, the line broke, or the deadline passed.
  boost::asio::awaitable<bool> read(std::string& into);
  // Writes all, or no more than the line takes at once: how many bytes of it, 0 where the line broke or the deadline
  // passed. Over TLS that is a piece of at most 64 KiB.
  boost::asio::awaitable<bool> write(std::string_view bytes);
  boost::asio::awaitable<std::size_t> write_some(std::string_view bytes);
  // Ends a refused request: tells the peer that nothing more comes and lets it finish sending for a short while, so
  // that our answer is not lost to a reset.
  boost::asio::awaitable<void> close_gently();

  // One deadline at a time; when it passes, what is under way ends.
  void expire_after(Duration duration);
  void expire_never();
  bool is_late() const { return is_late_; }
  // Ends what is under way as if the peer had closed.
  void abort();
  // Calls `gone` when the peer closes while nothing is read or written.
  void watch_for_close(std::function<void()> gone);

  std::string peer_address() const;
  boost::asio::any_io_executor executor() { return socket_.get_executor(); }

 private:
  boost::asio::awaitable<bool> receive();
  boost::asio::awaitable<bool> send(std::string_view bytes);

  boost::asio::ip::tcp::socket socket_;
  boost::asio::steady_timer deadline_;
  std::uint64_t deadlines_ = 0;  // tells a deadline that was replaced from the present one
  bool is_late_ = false;
  bool is_aborted_ = false;
  std::optional<TlsSession> tls_;
  std::string received_;
};

}  // namespace hw::http
