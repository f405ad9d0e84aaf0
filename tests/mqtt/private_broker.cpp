#include "tests/mqtt/private_broker.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <csignal>
#include <fstream>

#include <arpa/inet.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include "libs/values/assert.h"

namespace hw::mqtt_tests {
namespace {

constexpr int look_again_ms = 5;
constexpr int starts_max = 20;  // another program may take the port between finding and using it

sockaddr_in loopback(std::uint16_t port) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(port);
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  return address;
}

std::uint16_t free_port() {
  const int socket = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  sockaddr_in address = loopback(0);
  socklen_t size = sizeof address;
  HW_ASSERT(::bind(socket, reinterpret_cast<sockaddr*>(&address), size) == 0, "a port is free");
  HW_ASSERT(::getsockname(socket, reinterpret_cast<sockaddr*>(&address), &size) == 0, "a socket has a name");
  ::close(socket);
  return ntohs(address.sin_port);
}

std::string with_folder(std::string text, const std::string& folder) {
  for (std::size_t at = 0; (at = text.find('%', at)) != std::string::npos; at += folder.size()) {
    text.replace(at, 1, folder);
  }
  return text;
}

}  // namespace

PrivateBroker::PrivateBroker(std::string_view more) : more_(more) {
  std::string form = (std::filesystem::temp_directory_path() / "hw_broker_XXXXXX").string();
  HW_ASSERT(::mkdtemp(form.data()) != nullptr, "a temporary folder can be made");
  folder_ = form;
  int starts = 0;
  do {
    HW_ASSERT(++starts <= starts_max, "mosquitto starts");
    port_ = free_port();
  } while (!try_start());
}

PrivateBroker::~PrivateBroker() {
  kill();
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
}

std::string PrivateBroker::url(std::string_view more) const {
  return fmt::format("mqtt://127.0.0.1:{}{}", port_, more);
}

void PrivateBroker::start() { HW_ASSERT(try_start(), "mosquitto starts again"); }

void PrivateBroker::kill() {
  if (process_ <= 0) return;
  ::kill(process_, SIGKILL);
  ::waitpid(process_, nullptr, 0);
  process_ = -1;
}

bool PrivateBroker::try_start() {
  const std::string file = (folder_ / "broker.conf").string();
  std::ofstream(file) << fmt::format("listener {} 127.0.0.1\nuser root\npersistence false\n{}", port_,
                                     with_folder(more_, folder_.string()));
  const std::string log = (folder_ / "log").string();
  process_ = ::fork();
  HW_ASSERT(process_ >= 0, "a process can be made");
  if (process_ == 0) {
    const int out = ::open(log.c_str(), O_WRONLY | O_CREAT | O_APPEND, 0600);
    ::dup2(out, 1);
    ::dup2(out, 2);
    ::execl("/usr/sbin/mosquitto", "mosquitto", "-c", file.c_str(), nullptr);
    ::_exit(127);
  }
  while (!answers()) {
    if (::waitpid(process_, nullptr, WNOHANG) != 0) {
      process_ = -1;
      return false;
    }
    ::poll(nullptr, 0, look_again_ms);
  }
  return true;
}

bool PrivateBroker::answers() const {
  const int socket = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  sockaddr_in address = loopback(port_);
  const bool is_there = ::connect(socket, reinterpret_cast<sockaddr*>(&address), sizeof address) == 0;
  ::close(socket);
  return is_there;
}

double PrivateBroker::cpu_seconds() const {
  // proc(5): behind the name in brackets the fields 3, 4 ...; utime and stime are 14 and 15.
  std::ifstream file(fmt::format("/proc/{}/stat", process_));
  std::string text{std::istreambuf_iterator<char>(file), {}};
  text.erase(0, std::min(text.rfind(')') + 2, text.size()));
  std::array<std::string, 13> fields;
  std::size_t at = 0;
  for (std::string& field : fields) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    field = text.substr(at, end - at);
    at = std::min(end + 1, text.size());
  }
  if (fields[12].empty()) return 0;
  return (std::stod(fields[11]) + std::stod(fields[12])) / static_cast<double>(::sysconf(_SC_CLK_TCK));
}

}  // namespace hw::mqtt_tests
