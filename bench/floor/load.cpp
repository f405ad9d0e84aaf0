#include "bench/floor/load.h"

#include <algorithm>
#include <atomic>
#include <charconv>
#include <chrono>
#include <string_view>
#include <thread>

#include <arpa/inet.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <sys/socket.h>
#include <unistd.h>

#include "libs/values/assert.h"

namespace hw::bench {
namespace {

using Steady = std::chrono::steady_clock;
using Seconds = std::chrono::duration<double>;

class KeptLine {
 public:
  explicit KeptLine(std::uint16_t port) : file_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(port);
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    const int yes = 1;
    ::setsockopt(file_, IPPROTO_TCP, TCP_NODELAY, &yes, sizeof yes);
    const int made = ::connect(file_, reinterpret_cast<const sockaddr*>(&address), sizeof address);
    HW_ASSERT(made == 0, "the server takes the connection");
  }
  ~KeptLine() { ::close(file_); }
  KeptLine(const KeptLine&) = delete;
  KeptLine& operator=(const KeptLine&) = delete;

  // Sends, and reads the whole answer; its body is what is left in `heard`.
  void ask(std::string_view request, std::string* body = nullptr) {
    HW_ASSERT(::send(file_, request.data(), request.size(), MSG_NOSIGNAL) == ssize_t(request.size()), "it is sent");
    std::size_t have = read_more(0), head_end = 0;
    while ((head_end = std::string_view(piece_.data(), have).find("\r\n\r\n")) == std::string_view::npos) {
      have += read_more(have);
    }
    const std::string_view head(piece_.data(), head_end);
    HW_ASSERT(head.starts_with("HTTP/1.1 200"), "the answer is 200");
    constexpr std::string_view name = "Content-Length: ";
    std::size_t left = 0;
    const std::size_t at = head.find(name);
    HW_ASSERT(at != std::string_view::npos, "the answer says its length");
    std::from_chars(head.data() + at + name.size(), head.data() + head.size(), left);
    const std::size_t first = have - head_end - 4;
    if (body) body->assign(piece_.data() + head_end + 4, first);
    for (left -= first; left > 0;) {
      const std::size_t got = read_more(0);
      if (body) body->append(piece_.data(), got);
      left -= got;
    }
  }

 private:
  std::size_t read_more(std::size_t at) {
    const ssize_t got = ::recv(file_, piece_.data() + at, piece_.size() - at, 0);
    HW_ASSERT(got > 0, "the answer comes whole");
    return static_cast<std::size_t>(got);
  }

  int file_;
  std::string piece_ = std::string(256 * 1024, '\0');
};

}  // namespace

std::vector<double> waits_at_rate(const Asked& asked, double per_second) {
  const auto total = static_cast<std::size_t>(asked.seconds * per_second);
  std::vector<double> waits(total);
  std::atomic<std::size_t> next = 0;
  const auto begin = Steady::now() + std::chrono::milliseconds(50);
  {
    std::vector<std::jthread> threads;
    for (unsigned i = 0; i < asked.connections; ++i) {
      threads.emplace_back([&] {
        KeptLine line(asked.port);
        for (std::size_t n = 0; (n = next++) < total;) {
          const auto due = begin + std::chrono::duration_cast<Steady::duration>(Seconds(double(n) / per_second));
          std::this_thread::sleep_until(due);
          line.ask(asked.request);
          waits[n] = Seconds(Steady::now() - due).count() * 1e3;
        }
      });
    }
  }
  std::sort(waits.begin(), waits.end());
  return waits;
}

double most_per_second(const Asked& asked) {
  std::atomic<std::uint64_t> answers = 0;
  const auto begin = Steady::now();
  const auto end = begin + std::chrono::duration_cast<Steady::duration>(Seconds(asked.seconds));
  {
    std::vector<std::jthread> threads;
    for (unsigned i = 0; i < asked.connections; ++i) {
      threads.emplace_back([&] {
        KeptLine line(asked.port);
        for (; Steady::now() < end; ++answers) line.ask(asked.request);
      });
    }
  }
  return double(answers) / Seconds(Steady::now() - begin).count();
}

std::string body_of(const Asked& asked) {
  std::string body;
  KeptLine(asked.port).ask(asked.request, &body);
  return body;
}

}  // namespace hw::bench
