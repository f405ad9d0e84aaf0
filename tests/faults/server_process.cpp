#include "tests/faults/server_process.h"

#include <charconv>
#include <chrono>
#include <fstream>
#include <sstream>

#include <arpa/inet.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include "libs/values/assert.h"
#include "tests/places/places.h"
#include "tests/shop/let_in.h"

namespace hw::faults {
namespace {

constexpr int look_again_ms = 10;  // a processor that waits for a condition is missing where it comes about
constexpr int answer_within_s = 30;

std::string read_all(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

// In the child: nothing but calls that are allowed after fork.
[[noreturn]] void become(const std::vector<char*>& arguments, const char* output) {
  const int file = ::open(output, O_WRONLY | O_CREAT | O_TRUNC, 0600);
  ::dup2(file, STDOUT_FILENO);
  ::dup2(file, STDERR_FILENO);
  ::close_range(3, ~0U, 0);  // sockets of the agent's connections: a second holder would keep them open
  ::execv(arguments.front(), arguments.data());
  ::_exit(127);
}

class Socket {
 public:
  explicit Socket(std::uint16_t port) : file_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
    const timeval limit{answer_within_s, 0};
    ::setsockopt(file_, SOL_SOCKET, SO_RCVTIMEO, &limit, sizeof limit);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(port);
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    is_open_ = ::connect(file_, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0;
  }
  ~Socket() { ::close(file_); }
  Socket(const Socket&) = delete;
  Socket& operator=(const Socket&) = delete;

  // Sends the request and reads until the other side closes.
  std::string ask(std::string_view request) const {
    std::string heard;
    if (!is_open_ || ::send(file_, request.data(), request.size(), MSG_NOSIGNAL) < 0) return heard;
    char piece[16384];
    for (ssize_t got = 0; (got = ::recv(file_, piece, sizeof piece, 0)) > 0;) {
      heard.append(piece, static_cast<std::size_t>(got));
    }
    return heard;
  }

 private:
  int file_;
  bool is_open_ = false;
};

Heard ask(std::uint16_t port, std::string_view as, std::string_view method, std::string_view path,
          std::string_view body) {
  const std::string request = fmt::format(
      "{} {} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n{}Connection: close\r\nContent-Type: application/json\r\n"
      "Content-Length: {}\r\n\r\n{}",
      method, path, port, as, body.size(), body);
  const std::string answer = Socket(port).ask(request);
  const std::size_t head = answer.find("\r\n\r\n");
  Heard heard;
  if (head == std::string::npos) return heard;
  constexpr std::size_t status_at = std::string_view("HTTP/1.1 ").size();
  std::from_chars(answer.data() + status_at, answer.data() + head, heard.status);
  heard.body = answer.substr(head + 4);
  return heard;
}

}  // namespace

bool comes_true(const std::function<bool()>& condition, Duration within) {
  const auto end = std::chrono::steady_clock::now() + std::chrono::nanoseconds(within.ns);
  while (!condition()) {
    if (std::chrono::steady_clock::now() > end) return false;
    ::poll(nullptr, 0, look_again_ms);
  }
  return true;
}

ServerProcess::ServerProcess(const std::filesystem::path& folder, std::vector<std::string> more,
                             const std::string& command) {
  std::string form = (std::filesystem::temp_directory_path() / "hw_said_XXXXXX").string();
  const int file = ::mkstemp(form.data());
  HW_ASSERT(file >= 0, "a temporary file can be made");
  ::close(file);
  output_ = form;
  as_lead_ = shop::let_in(folder);
  std::vector<std::string> words{in_build("hourwright"), command, "--data", folder.string(), "--listen", "127.0.0.1:0"};
  words.insert(words.end(), more.begin(), more.end());
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  ::setenv("HOURWRIGHT_SHARE", in_source().c_str(), 1);
  process_ = ::fork();
  HW_ASSERT(process_ >= 0, "a process can be made");
  if (process_ == 0) become(arguments, output_.c_str());
}

ServerProcess::~ServerProcess() {
  kill();
  std::error_code ignored;
  std::filesystem::remove(output_, ignored);
}

bool ServerProcess::is_up() {
  constexpr std::string_view before = "http://127.0.0.1:";
  const auto is_told = [&] {
    const std::string text = said();
    const std::size_t at = text.find(before);
    if (at == std::string::npos || text.find('\n', at) == std::string::npos) return false;
    std::from_chars(text.data() + at + before.size(), text.data() + text.size(), port_);
    return true;
  };
  bool has_ended = false;
  comes_true([&] {
    siginfo_t ended{};
    ::waitid(P_PID, static_cast<id_t>(process_), &ended, WEXITED | WNOHANG | WNOWAIT);
    has_ended = ended.si_pid != 0;
    return has_ended || is_told();
  });
  return port_ != 0;
}

void ServerProcess::signal(int number) const {
  if (process_ > 0) ::kill(process_, number);
}

int ServerProcess::exit_status() {
  if (process_ <= 0) return -1;
  int status = 0;
  ::waitpid(process_, &status, 0);
  process_ = -1;
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

void ServerProcess::kill() {
  signal(SIGKILL);
  exit_status();
}

int ServerProcess::stop() {
  signal(SIGTERM);
  return exit_status();
}

Heard ServerProcess::get(std::string_view path) const { return ask(port_, as_lead_, "GET", path, ""); }

Heard ServerProcess::post(std::string_view path, std::string_view json) const {
  return ask(port_, as_lead_, "POST", path, json);
}

boost::json::value ServerProcess::json(std::string_view path) const {
  const Heard heard = get(path);
  if (heard.status != 200) return nullptr;
  boost::json::error_code error;
  boost::json::value value = boost::json::parse(heard.body, error);
  return error ? nullptr : value;
}

std::string ServerProcess::said() const { return read_all(output_); }

double ServerProcess::memory_max_mib() const {
  const std::string status = read_all(fmt::format("/proc/{}/status", process_));
  const std::size_t at = status.find("VmHWM:");
  double kib = 0;
  if (at != std::string::npos) std::istringstream(status.substr(at + 6)) >> kib;
  return kib / 1024;
}

}  // namespace hw::faults
