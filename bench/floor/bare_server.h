#pragma once
// Nothing but Boost.Beast: the same bytes to everybody who sends an HTTP request, as its own examples do it.

#include <cstdint>
#include <memory>
#include <string>

#include <sys/types.h>

namespace hw::bench {

class BareServer {
 public:
  // Answers at a port of 127.0.0.1 from now on, on as many threads as there are processors.
  explicit BareServer(std::string body);
  ~BareServer();

  std::uint16_t port() const;

 private:
  struct Running;
  std::unique_ptr<Running> running_;
};

// The same in a process of its own, which never outlives the object.
class BareProcess {
 public:
  explicit BareProcess(const std::string& body);
  ~BareProcess();
  BareProcess(const BareProcess&) = delete;
  BareProcess& operator=(const BareProcess&) = delete;

  std::uint16_t port() const { return port_; }

 private:
  pid_t process_ = -1;
  std::uint16_t port_ = 0;
};

}  // namespace hw::bench
