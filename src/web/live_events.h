#pragma once
// Tells whoever looks what has changed, at most once a second: `machine` with the machine's line of the Floor, `tasks`
// with the machine's key. Keeps the Floor's lines ready meanwhile.

#include <condition_variable>
#include <map>
#include <mutex>
#include <thread>

#include "src/web/api.h"

namespace hw::web {

class LiveEvents {
 public:
  LiveEvents(const service::OpenShop& shop, FloorLines& lines, Clock clock, http::Channel& channel);
  ~LiveEvents();  // stops
  LiveEvents(const LiveEvents&) = delete;
  LiveEvents& operator=(const LiveEvents&) = delete;

 private:
  struct Told {
    std::uint64_t counts_version = 0;
    std::uint64_t tasks_version = 0;
  };
  void run();
  void tell_changes();

  const service::OpenShop& shop_;
  FloorLines& lines_;
  Clock clock_;
  http::Channel& channel_;
  std::map<std::string, Told> told_;
  std::int64_t told_minute_ = 0;
  std::uint64_t told_stores_ = 0;
  std::mutex mutex_;
  std::condition_variable wake_;
  bool is_stopping_ = false;
  std::thread thread_;
};

}  // namespace hw::web
