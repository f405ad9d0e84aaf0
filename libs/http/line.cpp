#include "libs/http/line.h"

#include <cerrno>
#include <cstring>
#include <mutex>
#include <thread>

#include <arpa/inet.h>
#include <netdb.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

namespace hw::http {
namespace {

constexpr std::size_t piece_bytes_max = 64 * 1024;

std::string reason_of(int error_number) { return std::generic_category().message(error_number); }

int milliseconds_until(Line::Clock::time_point deadline) {
  const auto left = std::chrono::ceil<std::chrono::milliseconds>(deadline - Line::Clock::now()).count();
  return static_cast<int>(std::clamp<std::int64_t>(left, 0, 3'600'000));
}

struct Address {
  sockaddr_storage storage{};
  socklen_t length = 0;
};

// An address in digits, as inet_pton reads it; length 0 where the text is none.
Address parse_address(const std::string& text, std::uint16_t port) {
  Address address;
  auto* const v4 = reinterpret_cast<sockaddr_in*>(&address.storage);
  auto* const v6 = reinterpret_cast<sockaddr_in6*>(&address.storage);
  if (::inet_pton(AF_INET, text.c_str(), &v4->sin_addr) == 1) {
    v4->sin_family = AF_INET;
    v4->sin_port = htons(port);
    address.length = sizeof *v4;
  } else if (::inet_pton(AF_INET6, text.c_str(), &v6->sin6_addr) == 1) {
    v6->sin6_family = AF_INET6;
    v6->sin6_port = htons(port);
    address.length = sizeof *v6;
  }
  return address;
}

// A look-up that can be left behind: the system's resolver cannot be stopped, so it works on a thread of its own, and
// what it finds belongs to both.
struct LookUp {
  std::mutex mutex;
  std::vector<std::string> found;
  std::string reason;
  CancelToken finished;  // readable once there is an outcome
};

void run(LookUp& look_up, const std::string& host) {
  addrinfo hints{};
  hints.ai_socktype = SOCK_STREAM;
  addrinfo* list = nullptr;
  const int error = ::getaddrinfo(host.c_str(), nullptr, &hints, &list);
  const std::lock_guard lock(look_up.mutex);
  if (error != 0) look_up.reason = ::gai_strerror(error);
  for (const addrinfo* one = list; one != nullptr; one = one->ai_next) {
    char text[NI_MAXHOST];
    if (::getnameinfo(one->ai_addr, one->ai_addrlen, text, sizeof text, nullptr, 0, NI_NUMERICHOST) == 0) {
      look_up.found.emplace_back(text);
    }
  }
  if (list != nullptr) ::freeaddrinfo(list);
  look_up.finished.cancel();
}

}  // namespace

Line::~Line() {
  if (socket_ >= 0) ::close(socket_);
}

Line::Line(Line&& other) noexcept
    : cancel_(other.cancel_), socket_(std::exchange(other.socket_, -1)), tls_(std::move(other.tls_)) {}

Result<void> Line::wait_for(int descriptor, short events, Clock::time_point deadline) const {
  for (;;) {
    pollfd waits[] = {{descriptor, events, 0}, {cancel_.descriptor(), POLLIN, 0}};
    const int ready = ::poll(waits, 2, milliseconds_until(deadline));
    if (waits[1].revents != 0) return refuse(ErrorCode::unreachable, "the request was cancelled");
    if (ready > 0) return {};
    if (ready == 0 && Clock::now() >= deadline) return refuse(ErrorCode::timed_out, "no answer in time");
    if (ready < 0 && errno != EINTR) return refuse(ErrorCode::unreachable, "{}", reason_of(errno));
  }
}

Result<std::vector<std::string>> Line::look_up(const std::string& host, Clock::time_point deadline) const {
  if (parse_address(host, 0).length > 0) return std::vector<std::string>{host};
  // RFC 6761, section 6.3: such names are this computer's; the system's resolver may not know it.
  if (host.ends_with(".localhost")) return std::vector<std::string>{"127.0.0.1", "::1"};
  const auto look_up = std::make_shared<LookUp>();
  std::thread([look_up, host] { run(*look_up, host); }).detach();
  if (auto ready = wait_for(look_up->finished.descriptor(), POLLIN, deadline); !ready) {
    return refuse(ready.error().at(fmt::format("looking up {}", host)));
  }
  const std::lock_guard lock(look_up->mutex);
  if (!look_up->found.empty()) return look_up->found;
  return refuse(ErrorCode::unreachable, "the host {} is not known: {}", host, look_up->reason);
}

Result<Line> Line::open(const Url& url, const std::string& ca_file, CancelToken cancel, Clock::time_point deadline) {
  Line line(std::move(cancel));
  const auto addresses = line.look_up(url.host, deadline);
  if (!addresses) return refuse(addresses.error());
  Result<void> connected;
  for (const std::string& address : *addresses) {
    connected = line.connect(address, url.port, deadline);
    if (connected) break;
  }
  if (!connected) return refuse(connected.error());
  if (url.scheme == "https") {
    if (auto shaken = line.shake_hands(url, ca_file, deadline); !shaken) return refuse(shaken.error());
  }
  return line;
}

Result<void> Line::connect(const std::string& address_text, std::uint16_t port, Clock::time_point deadline) {
  const Address address = parse_address(address_text, port);
  if (socket_ >= 0) ::close(socket_);
  socket_ = ::socket(address.storage.ss_family, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0);
  if (socket_ < 0) return refuse(ErrorCode::unreachable, "no connection: {}", reason_of(errno));
  const int on = 1;
  ::setsockopt(socket_, IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
  ::setsockopt(socket_, SOL_SOCKET, SO_KEEPALIVE, &on, sizeof on);
  if (::connect(socket_, reinterpret_cast<const sockaddr*>(&address.storage), address.length) == 0) return {};
  if (errno != EINPROGRESS) return refuse(ErrorCode::unreachable, "no connection: {}", reason_of(errno));
  if (auto ready = wait_for(socket_, POLLOUT, deadline); !ready) return refuse(ready.error().at("connecting"));
  int error = 0;
  socklen_t length = sizeof error;
  ::getsockopt(socket_, SOL_SOCKET, SO_ERROR, &error, &length);
  if (error != 0) return refuse(ErrorCode::unreachable, "no connection: {}", reason_of(error));
  return {};
}

Result<void> Line::shake_hands(const Url& url, const std::string& ca_file, Clock::time_point deadline) {
  const auto context = TlsContext::for_client(ca_file);
  if (!context) return refuse(context.error());
  tls_ = TlsSession::connect(*context, url.host);
  std::string received;
  for (;;) {
    const auto outcome = tls_->handshake();
    if (auto sent = send_all(tls_->take(), deadline); !sent) return sent;
    if (outcome == TlsSession::Outcome::done) return {};
    if (outcome != TlsSession::Outcome::hungry) {
      return refuse(ErrorCode::peer_misbehaved, "no TLS connection: {}", tls_->complaint());
    }
    if (auto got = receive(received, deadline); !got) return refuse(got.error().at("shaking hands for TLS"));
    if (received.empty()) return refuse(ErrorCode::peer_misbehaved, "the line was closed during the TLS handshake");
    tls_->give(received);
  }
}

Result<void> Line::send_all(std::string_view bytes, Clock::time_point deadline) {
  while (!bytes.empty()) {
    const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent > 0) {
      bytes.remove_prefix(static_cast<std::size_t>(sent));
    } else if (errno == EAGAIN) {
      if (auto ready = wait_for(socket_, POLLOUT, deadline); !ready) return ready;
    } else if (errno != EINTR) {
      return refuse(ErrorCode::unreachable, "the line was lost: {}", reason_of(errno));
    }
  }
  return {};
}

// Looks at the token and the deadline before each piece, so that a peer that never stops sending can be stopped.
Result<void> Line::receive(std::string& bytes, Clock::time_point deadline) {
  for (;;) {
    if (auto ready = wait_for(socket_, POLLIN, deadline); !ready) return ready;
    if (Clock::now() >= deadline) return refuse(ErrorCode::timed_out, "no whole answer in time");
    bytes.resize(piece_bytes_max);
    const ssize_t count = ::recv(socket_, bytes.data(), bytes.size(), 0);
    bytes.resize(static_cast<std::size_t>(std::max<ssize_t>(count, 0)));
    if (count >= 0) return {};
    if (errno != EAGAIN && errno != EINTR)
      return refuse(ErrorCode::unreachable, "the line was lost: {}", reason_of(errno));
  }
}

Result<void> Line::write(std::string_view bytes, Clock::time_point deadline) {
  if (!tls_) return send_all(bytes, deadline);
  if (tls_->write(bytes) != TlsSession::Outcome::done) {
    return refuse(ErrorCode::peer_misbehaved, "TLS failed: {}", tls_->complaint());
  }
  return send_all(tls_->take(), deadline);
}

Result<void> Line::read(std::string& bytes, Clock::time_point deadline) {
  if (!tls_) return receive(bytes, deadline);
  std::string received;
  for (;;) {
    bytes.clear();
    const auto outcome = tls_->read(bytes);
    if (auto sent = send_all(tls_->take(), deadline); !sent) return sent;
    if (outcome == TlsSession::Outcome::done || outcome == TlsSession::Outcome::ended) return {};
    if (outcome == TlsSession::Outcome::failed) {
      return refuse(ErrorCode::peer_misbehaved, "TLS failed: {}", tls_->complaint());
    }
    if (auto got = receive(received, deadline); !got) return got;
    if (received.empty()) return refuse(ErrorCode::peer_misbehaved, "the TLS line was cut off, not closed");
    tls_->give(received);
  }
}

}  // namespace hw::http
