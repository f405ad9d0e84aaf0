#include "tests/abuse/raw_line.h"

#include <charconv>
#include <utility>

#include <arpa/inet.h>
#include <fmt/format.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include "libs/values/assert.h"

namespace hw::abuse {
namespace {

constexpr int answer_within_s = 100;  // before a test fails; nothing is measured by it

}  // namespace

std::string request(std::string_view method, std::string_view target, std::string_view body, std::string_view more) {
  std::string head = fmt::format("{} {} HTTP/1.1\r\nHost: 127.0.0.1\r\n{}", method, target, lets_in);
  if (!body.empty()) head += fmt::format("Content-Type: application/json\r\nContent-Length: {}\r\n", body.size());
  return fmt::format("{}{}\r\n{}", head, more, body);
}

RawLine::RawLine(std::uint16_t port) : socket_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  const timeval limit{answer_within_s, 0};
  ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &limit, sizeof limit);
  ::setsockopt(socket_, SOL_SOCKET, SO_SNDTIMEO, &limit, sizeof limit);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(port);
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  const bool is_connected = ::connect(socket_, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0;
  HW_ASSERT(is_connected, "the server takes a connection");
}

RawLine::RawLine(RawLine&& other) noexcept
    : socket_(std::exchange(other.socket_, -1)), received_(std::move(other.received_)) {}

void RawLine::close() {
  if (socket_ >= 0) ::close(socket_);
  socket_ = -1;
}

bool RawLine::send(std::string_view bytes) const {
  while (!bytes.empty()) {
    const ssize_t count = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (count <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(count));
  }
  return true;
}

bool RawLine::receive() {
  char piece[16384];
  const ssize_t count = ::recv(socket_, piece, sizeof piece, 0);
  if (count <= 0) return false;
  received_.append(piece, static_cast<std::size_t>(count));
  return true;
}

std::string RawLine::take(std::size_t bytes) {
  std::string front = received_.substr(0, bytes);
  received_.erase(0, bytes);
  return front;
}

std::string RawLine::head() {
  constexpr std::string_view end = "\r\n\r\n";
  std::size_t at = 0;
  while ((at = received_.find(end)) == std::string::npos) {
    if (!receive()) return "";
  }
  return take(at + end.size());
}

std::string RawLine::answer() {
  std::string whole = head();
  constexpr std::string_view name = "Content-Length: ";
  const std::size_t at = whole.find(name);
  std::size_t length = 0;
  if (at != std::string::npos) std::from_chars(whole.data() + at + name.size(), whole.data() + whole.size(), length);
  while (received_.size() < length) {
    if (!receive()) return "";
  }
  return whole + take(length);
}

std::string RawLine::until_closed() {
  while (receive()) {
  }
  return std::exchange(received_, {});
}

int status_of(std::string_view answer) {
  constexpr std::string_view version = "HTTP/1.1 ";
  int status = 0;
  if (answer.starts_with(version)) {
    std::from_chars(answer.data() + version.size(), answer.data() + answer.size(), status);
  }
  return status;
}

int ask(std::uint16_t port, std::string_view bytes) {
  RawLine line(port);
  line.send(bytes);
  return status_of(line.answer());
}

}  // namespace hw::abuse
