#include "tests/faults/link.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include "libs/values/assert.h"

namespace hw::faults {
namespace {

constexpr int look_anew_ms = 50;

sockaddr_in on_loopback(std::uint16_t port) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(port);
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  return address;
}

// Passes on what is there; false at the end.
bool pass_on(int from, int to, std::atomic<std::uint64_t>* count) {
  char piece[16384];
  const ssize_t got = ::recv(from, piece, sizeof piece, 0);
  if (got <= 0) return false;
  if (count != nullptr) *count += static_cast<std::uint64_t>(got);
  for (ssize_t sent = 0; sent < got;) {
    const ssize_t now = ::send(to, piece + sent, static_cast<std::size_t>(got - sent), MSG_NOSIGNAL);
    if (now <= 0) return false;
    sent += now;
  }
  return true;
}

}  // namespace

Link::Link(std::uint16_t to) : to_(to), listener_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  sockaddr_in address = on_loopback(0);
  socklen_t size = sizeof address;
  HW_ASSERT(::bind(listener_, reinterpret_cast<const sockaddr*>(&address), size) == 0, "a port is free");
  HW_ASSERT(::listen(listener_, 16) == 0, "it is listened to");
  ::getsockname(listener_, reinterpret_cast<sockaddr*>(&address), &size);
  port_ = ntohs(address.sin_port);
  accepting_ = std::thread([this] { accept_all(); });
}

Link::~Link() {
  is_ending_ = true;
  cut();
  accepting_.join();
  ::close(listener_);
}

void Link::cut() {
  is_cut_ = true;
  const std::lock_guard lock(mutex_);
  for (const int socket : open_) ::shutdown(socket, SHUT_RDWR);
}

void Link::accept_all() {
  while (!is_ending_) {
    pollfd wait{listener_, POLLIN, 0};
    if (::poll(&wait, 1, look_anew_ms) <= 0) continue;
    const int client = ::accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC);
    if (client >= 0) carrying_.emplace_back([this, client] { carry(client); });
  }
  for (std::thread& thread : carrying_) thread.join();
}

void Link::carry(int client) {
  const int server = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  const sockaddr_in address = on_loopback(to_);
  {
    const std::lock_guard lock(mutex_);
    open_.insert({client, server});
  }
  bool goes_on = !is_cut_ && ::connect(server, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0;
  while (goes_on && !is_cut_) {
    pollfd waits[] = {{client, POLLIN, 0}, {server, POLLIN, 0}};
    if (::poll(waits, 2, look_anew_ms) <= 0) continue;
    if (waits[0].revents != 0) goes_on = pass_on(client, server, &bytes_up_);
    if (goes_on && waits[1].revents != 0) goes_on = pass_on(server, client, nullptr);
  }
  const std::lock_guard lock(mutex_);
  open_.erase(client);
  open_.erase(server);
  ::close(client);
  ::close(server);
}

}  // namespace hw::faults
