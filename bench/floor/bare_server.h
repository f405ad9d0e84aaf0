#pragma once
// Nothing but Boost.Beast: the same bytes to everybody who sends an HTTP request, as its own examples do it.

#include <cstdint>
#include <memory>
#include <string>

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

}  // namespace hw::bench
