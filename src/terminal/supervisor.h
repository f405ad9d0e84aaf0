#pragma once
// What systemd is told of a server that it has started (sd_notify(3)); nothing where it has not.

#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>

namespace hw::terminal {

// It answers from now on; it ends.
void tell_ready();
void tell_ending();

// Says at half the unit's WatchdogSec that the server is well, as long as it is: a server that hangs is started again.
// Without a WatchdogSec it asks nothing.
class Watchdog {
 public:
  explicit Watchdog(std::function<bool()> is_well);
  ~Watchdog();

 private:
  void run();

  std::function<bool()> is_well_;
  std::mutex mutex_;
  std::condition_variable wake_;
  bool is_stopping_ = false;
  std::thread thread_;
};

}  // namespace hw::terminal
