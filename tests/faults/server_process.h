#pragma once
// The program as a process of its own: started, asked, stopped, killed. It never outlives the object.

#include <csignal>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <boost/json.hpp>
#include <sys/types.h>

#include "libs/values/instant.h"

namespace hw::faults {

// How long a test waits for what must come before it fails. Nothing is measured by it.
inline constexpr Duration patience = Duration::seconds(100);

// Looks in small steps until the condition holds; false when patience is at its end.
bool comes_true(const std::function<bool()>& condition, Duration within = patience);

// An answer of the server; status 0: there was none.
struct Heard {
  int status = 0;
  std::string body;
};

class ServerProcess {
 public:
  // hourwright COMMAND --data FOLDER --listen 127.0.0.1:0 MORE...; what it writes is kept for said().
  ServerProcess(const std::filesystem::path& folder, std::vector<std::string> more = {},
                const std::string& command = "serve");
  ~ServerProcess();  // SIGKILL
  ServerProcess(const ServerProcess&) = delete;
  ServerProcess& operator=(const ServerProcess&) = delete;

  // Waits for the address that it prints; false: it ended before.
  bool is_up();
  // Of that address.
  std::uint16_t port() const { return port_; }
  void signal(int number) const;
  // SIGKILL, and waits until it is gone.
  void kill();
  // SIGTERM; its exit status, -1 where a signal ended it.
  int stop();
  // Waits for its end.
  int exit_status();

  // As a lead's program.
  Heard get(std::string_view path) const;
  Heard post(std::string_view path, std::string_view json) const;
  // GET as JSON; null where there is no answer of status 200.
  boost::json::value json(std::string_view path) const;

  // All that it has written to standard output and standard error so far.
  std::string said() const;
  // The most memory that it ever had in use, in MiB (VmHWM).
  double memory_max_mib() const;

 private:
  std::filesystem::path output_;
  pid_t process_ = -1;
  std::uint16_t port_ = 0;
  std::string as_lead_;  // the header that lets in
};

}  // namespace hw::faults
