#pragma once
// Follows all feeds of a shop and stores what was counted, until it is stopped. What the feeds hand over is counted in
// memory at once and stored every few seconds, position and counters in one transaction: a crash loses nothing, since
// the feed goes on from the stored position, and doubles nothing.

#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <thread>
#include <vector>

#include "src/service/followed_feed.h"
#include "src/service/open_shop.h"

namespace hw::service {

struct FeedsOptions {
  Duration store_every = Duration::seconds(5);
  Duration shown_every = Duration::seconds(1);  // how often a feed's state is looked at
  std::function<Instant()> clock;
  std::function<void(std::string_view)> report;  // told each trouble in a sentence
};

class RunningFeeds {
 public:
  // Starts a thread for each feed and one that stores.
  static Result<std::unique_ptr<RunningFeeds>> start(OpenShop& shop, FeedsOptions options);
  ~RunningFeeds();  // stops

  // Ends the feeds, then stores what was counted. Refuses what the store refuses.
  Result<void> stop();
  // Stores what has been counted so far; nothing when nothing has.
  Result<void> store_now();

 private:
  RunningFeeds(OpenShop& shop, FeedsOptions options);
  void run_storing();
  void store_and_report();
  void show_states();
  void show_state(OpenMachine& machine, FeedStatus status);

  OpenShop& shop_;
  FeedsOptions options_;
  std::vector<std::unique_ptr<FollowedFeed>> feeds_;
  std::mutex storing_;  // one step at a time
  std::mutex mutex_;
  std::condition_variable wake_;
  bool is_stopping_ = false;
  std::thread thread_;
};

}  // namespace hw::service
