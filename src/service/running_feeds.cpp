#include "src/service/running_feeds.h"

#include <algorithm>
#include <chrono>

#include "libs/sql/storage_failed.h"
#include "src/service/feed_sink.h"

namespace hw::service {

RunningFeeds::RunningFeeds(OpenShop& shop, FeedsOptions options) : shop_(shop), options_(std::move(options)) {}

Result<std::unique_ptr<RunningFeeds>> RunningFeeds::start(OpenShop& shop, FeedsOptions options) {
  std::unique_ptr<RunningFeeds> running{new RunningFeeds(shop, std::move(options))};
  for (const FeedRecord& record : shop.record().feeds) {
    HW_TAKE(feed, follow_feed(shop, record, {running->options_.clock, running->options_.report}));
    running->feeds_.push_back(std::move(feed));
  }
  running->thread_ = std::thread{[feeds = running.get()] { feeds->run_storing(); }};
  return running;
}

RunningFeeds::~RunningFeeds() {
  if (auto stopped = stop(); !stopped) options_.report(stopped.error().message);
}

Result<void> RunningFeeds::stop() {
  {
    const std::lock_guard lock(mutex_);
    is_stopping_ = true;
  }
  wake_.notify_all();
  if (thread_.joinable()) thread_.join();
  for (auto& feed : feeds_) feed->stop();
  return store_now();
}

Result<void> RunningFeeds::store_now() {
  const std::lock_guard turn(storing_);
  std::vector<CountedFeed*> counted;
  for (auto& feed : feeds_) counted.push_back(&feed->counted());
  try {
    return store_counting(shop_, counted, options_.clock());
  } catch (const sql::StorageFailed& failed) {
    return refuse(failed.error());
  }
}

void RunningFeeds::run_storing() {
  using Clock = std::chrono::steady_clock;
  const std::chrono::nanoseconds show_every{options_.shown_every.ns}, store_every{options_.store_every.ns};
  auto show_at = Clock::now() + show_every;
  auto store_at = Clock::now() + store_every;
  std::unique_lock lock(mutex_);
  while (!wake_.wait_until(lock, std::min(show_at, store_at), [this] { return is_stopping_; })) {
    lock.unlock();
    if (Clock::now() >= show_at) {
      show_states();
      show_at = Clock::now() + show_every;
    }
    if (Clock::now() >= store_at) {
      store_and_report();
      store_at = Clock::now() + store_every;
    }
    lock.lock();
  }
}

// What cannot be stored stays in memory and is stored with the next attempt that succeeds.
void RunningFeeds::store_and_report() {
  const auto stored = store_now();
  const std::string trouble = stored ? "" : stored.error().message;
  const bool is_over = stored && !shop_.storing_trouble().empty();
  shop_.set_storing_trouble(trouble);
  if (!stored) options_.report(fmt::format("what was counted is not stored, and stays in memory: {}", trouble));
  if (is_over) options_.report("what was counted is stored again");
}

void RunningFeeds::show_state(OpenMachine& machine, FeedStatus status) {
  if (status.state != machine.feed.state) {
    ++machine.counts_version;
    options_.report(fmt::format("{}: the feed is {}{}{}", machine.record.machine.key, status.state,
                                status.says.empty() ? "" : ": ", status.says));
  }
  machine.feed = std::move(status);
}

void RunningFeeds::show_states() {
  const auto lock = shop_.change();
  for (const auto& feed : feeds_) {
    for (const auto& machine : shop_.machines()) {
      if (machine->record.feed == feed->key()) show_state(*machine, feed->status_of(*machine));
    }
  }
}

}  // namespace hw::service
