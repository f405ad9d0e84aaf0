#pragma once
// For this folder's tests: a client that sends exactly the bytes it is told, and a server that behaves as badly as it
// is told.

#include <atomic>
#include <chrono>
#include <functional>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

namespace hw::http {

// How long a test waits for what must come before it fails.
inline constexpr auto patience = std::chrono::seconds(10);

// Waits, in small steps, until the condition holds.
inline bool comes_true(const std::function<bool()>& condition) {
  const auto end = std::chrono::steady_clock::now() + patience;
  while (std::chrono::steady_clock::now() < end) {
    if (condition()) return true;
    std::this_thread::yield();
  }
  return false;
}

inline sockaddr_in loopback_address(std::uint16_t port) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(port);
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  return address;
}

class RawClient {
 public:
  explicit RawClient(std::uint16_t port, int receive_buffer_bytes = 0) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    if (receive_buffer_bytes > 0) {
      ::setsockopt(socket_, SOL_SOCKET, SO_RCVBUF, &receive_buffer_bytes, sizeof receive_buffer_bytes);
    }
    const timeval limit{std::chrono::seconds(patience).count(), 0};
    ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &limit, sizeof limit);
    ::setsockopt(socket_, SOL_SOCKET, SO_SNDTIMEO, &limit, sizeof limit);
    const sockaddr_in address = loopback_address(port);
    EXPECT_EQ(::connect(socket_, reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
  }
  ~RawClient() { close(); }
  RawClient(const RawClient&) = delete;
  RawClient& operator=(const RawClient&) = delete;

  void close() {
    if (socket_ >= 0) ::close(socket_);
    socket_ = -1;
  }
  int descriptor() const { return socket_; }

  // False where the peer does not take it any more.
  bool send(std::string_view bytes) {
    while (!bytes.empty()) {
      const ssize_t count = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
      if (count <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(count));
    }
    return true;
  }

  // One more piece into the buffer; false at the end.
  bool receive() {
    char piece[16384];
    const ssize_t count = ::recv(socket_, piece, sizeof piece, 0);
    if (count <= 0) return false;
    received_.append(piece, static_cast<std::size_t>(count));
    return true;
  }

  // All bytes up to and with this text.
  std::string read_through(std::string_view text) {
    std::size_t at = 0;
    while ((at = received_.find(text)) == std::string::npos) {
      if (!receive()) return std::exchange(received_, {});
    }
    return take(at + text.size());
  }

  // All bytes until the peer closes.
  std::string read_all() {
    while (receive()) {
    }
    return std::exchange(received_, {});
  }

  // One response with a Content-Length: its head, then its body in `body`.
  std::string read_response(std::string* body = nullptr, bool has_body = true) {
    std::string head = read_through("\r\n\r\n");
    const auto at = head.find("Content-Length: ");
    const std::size_t length = at == std::string::npos || !has_body ? 0 : std::stoul(head.substr(at + 16));
    while (received_.size() < length && receive()) {
    }
    const std::string text = take(std::min(length, received_.size()));
    if (body != nullptr) *body = text;
    return head;
  }

 private:
  std::string take(std::size_t count) {
    std::string text = received_.substr(0, count);
    received_.erase(0, count);
    return text;
  }

  int socket_;
  std::string received_;
};

// Accepts connections until it goes; each is given to `behave` on the server's one thread and then closed.
class LyingServer {
 public:
  explicit LyingServer(std::function<void(int socket)> behave)
      : listener_(::socket(AF_INET, SOCK_STREAM, 0)), behave_(std::move(behave)) {
    sockaddr_in address = loopback_address(0);
    socklen_t length = sizeof address;
    EXPECT_EQ(::bind(listener_, reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
    EXPECT_EQ(::listen(listener_, 16), 0);
    EXPECT_EQ(::getsockname(listener_, reinterpret_cast<sockaddr*>(&address), &length), 0);
    port_ = ntohs(address.sin_port);
    thread_ = std::thread([this] { run(); });
  }
  ~LyingServer() {
    is_over_ = true;
    ::shutdown(listener_, SHUT_RDWR);
    thread_.join();
    ::close(listener_);
  }
  LyingServer(const LyingServer&) = delete;
  LyingServer& operator=(const LyingServer&) = delete;

  std::uint16_t port() const { return port_; }
  // Reads the request's head, so that closing does not reset the line.
  static void read_head(int socket) {
    std::string head;
    char piece[4096];
    while (head.find("\r\n\r\n") == std::string::npos) {
      const ssize_t count = ::recv(socket, piece, sizeof piece, 0);
      if (count <= 0) return;
      head.append(piece, static_cast<std::size_t>(count));
    }
  }
  static bool write(int socket, std::string_view text) {
    return ::send(socket, text.data(), text.size(), MSG_NOSIGNAL) == static_cast<ssize_t>(text.size());
  }
  // Waits until the client closes.
  static void wait_for_close(int socket) {
    char piece[4096];
    while (::recv(socket, piece, sizeof piece, 0) > 0) {
    }
  }

 private:
  void run() {
    while (!is_over_) {
      const int socket = ::accept(listener_, nullptr, nullptr);
      if (socket < 0) continue;
      behave_(socket);
      ::close(socket);
    }
  }

  int listener_;
  std::function<void(int)> behave_;
  std::atomic<bool> is_over_ = false;
  std::uint16_t port_ = 0;
  std::thread thread_;
};

}  // namespace hw::http
