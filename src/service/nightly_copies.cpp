#include "src/service/nightly_copies.h"

#include <chrono>

#include "libs/sql/storage_failed.h"

namespace hw::service {

NightlyCopies::NightlyCopies(OpenShop& shop, CopyMaking making) : shop_(shop), making_(std::move(making)) {
  state_.keeping = copies::Keeping::nightly;
  shop_.set_copies(state_);
  thread_ = std::thread([this] { run(); });
}

NightlyCopies::~NightlyCopies() {
  {
    const std::lock_guard lock(mutex_);
    is_stopping_ = true;
  }
  wake_.notify_all();
  thread_.join();
}

void NightlyCopies::run() {
  const std::chrono::nanoseconds every{making_.look_every.ns};
  for (std::unique_lock lock(mutex_); !is_stopping_; wake_.wait_for(lock, every, [this] { return is_stopping_; })) {
    lock.unlock();
    look();
    lock.lock();
  }
}

// The folder is read anew each time: somebody may have taken the disk away, or put copies back.
void NightlyCopies::look() {
  const auto newest = making_.newest();
  if (newest) state_.last_good = *newest;
  const copies::CopyTries tries{state_.last_good ? std::optional{state_.last_good->made_at} : std::nullopt, tried_at_};
  if (is_copy_due(tries, making_.at, shop_.calendar().zone, making_.clock())) make();
  shop_.set_copies(state_);
}

void NightlyCopies::make() {
  tried_at_ = making_.clock();
  auto made = Result<copies::GoodCopy>{refuse(ErrorCode::disk_full, "it was not made")};
  try {
    made = making_.make(*tried_at_);
  } catch (const sql::StorageFailed& failed) {
    made = refuse(failed.error());
  }
  state_.trouble = made ? "" : made.error().message;
  if (!made) return making_.report(fmt::format("the copy of this night failed: {}", state_.trouble));
  state_.last_good = *made;
  tried_at_.reset();
}

}  // namespace hw::service
