#pragma once
// A mosquitto of one test's own: on a free port of 127.0.0.1, in a folder of its own. It never outlives the object.

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

#include <sys/types.h>

namespace hw::mqtt_tests {

class PrivateBroker {
 public:
  // `more`: lines of its configuration besides listener and folder; "%" in them is the folder. It answers when this
  // returns.
  explicit PrivateBroker(std::string_view more = "allow_anonymous true\n");
  ~PrivateBroker();  // SIGKILL
  PrivateBroker(const PrivateBroker&) = delete;
  PrivateBroker& operator=(const PrivateBroker&) = delete;

  // "mqtt://127.0.0.1:PORT" + more.
  std::string url(std::string_view more = {}) const;
  std::uint16_t port() const { return port_; }
  const std::filesystem::path& folder() const { return folder_; }

  // SIGKILL, and waits until it is gone.
  void kill();
  // Again on the same port.
  void start();
  // The processor time that it has taken since it was started, in seconds.
  double cpu_seconds() const;

 private:
  bool try_start();
  bool answers() const;

  std::filesystem::path folder_;
  std::string more_;
  std::uint16_t port_ = 0;
  pid_t process_ = -1;
};

}  // namespace hw::mqtt_tests
