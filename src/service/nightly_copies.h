#pragma once
// A copy of the shop each night while the server runs, by whoever knows how to make one.

#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <thread>

#include "src/copies/copy_rhythm.h"
#include "src/service/open_shop.h"

namespace hw::service {

struct CopyMaking {
  copies::CopyHour at;
  // The newest good copy that is there; nothing where there is none.
  std::function<Result<std::optional<copies::GoodCopy>>()> newest;
  // Makes one, checks it, and removes those that nobody wants any more.
  std::function<Result<copies::GoodCopy>(Instant now)> make;
  std::function<Instant()> clock;
  std::function<void(std::string_view)> report;  // told each copy that failed, in a sentence
  Duration look_every = Duration::seconds(60);
};

// How the copies stand is kept in the shop, for Today, /readyz and /metrics.
class NightlyCopies {
 public:
  // Makes one at once where the hour has come round since the last: the computer may have been off at night.
  NightlyCopies(OpenShop& shop, CopyMaking making);
  ~NightlyCopies();  // waits for one that is being made

 private:
  void run();
  void look();
  void make();

  OpenShop& shop_;
  CopyMaking making_;
  copies::CopyState state_;
  std::optional<Instant> tried_at_;
  std::mutex mutex_;
  std::condition_variable wake_;
  bool is_stopping_ = false;
  std::thread thread_;  // last: it uses all the others
};

}  // namespace hw::service
