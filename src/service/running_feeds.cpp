#include "src/service/running_feeds.h"

#include <algorithm>
#include <chrono>

#include "libs/sql/storage_failed.h"
#include "src/service/feed_sink.h"

namespace hw::service {

// One agent: its address, where its observations go, and its thread.
class RunningFeeds::Feed {
 public:
  Feed(OpenShop& shop, const FeedRecord& record, http::Url url, std::optional<feeds::Stored> stored,
       std::function<Instant()> clock, std::function<void(std::string_view)> report)
      : sink_(shop, record.key, stored ? std::optional{stored->position} : std::nullopt, std::move(report)),
        follower_({std::move(url), ""}, settings_of(shop, record), std::move(stored), sink_, std::move(clock)),
        thread_([this] { follower_.run(stop_); }) {}

  ~Feed() { stop(); }
  void stop() {
    stop_.cancel();
    if (thread_.joinable()) thread_.join();
  }
  FeedSink& sink() { return sink_; }
  feeds::FollowerView view() const { return follower_.view(); }

 private:
  static feeds::FollowerSettings settings_of(const OpenShop& shop, const FeedRecord& record) {
    feeds::FollowerSettings settings;
    settings.feed = record.key;
    settings.seed = std::hash<std::string>{}(record.key);  // so that feeds do not all come back at once
    settings.aliases = {shop.record().aliases.begin(), shop.record().aliases.end()};
    return settings;
  }

  FeedSink sink_;
  http::CancelToken stop_;
  feeds::AgentFollower follower_;
  std::thread thread_;
};

namespace {

// Where a feed goes on: the stored position with the models of the machines that it serves.
Result<std::optional<feeds::Stored>> stored_feed(const OpenShop& shop, const FeedRecord& feed) {
  HW_TAKE(positions, shop.store().positions());
  const auto position =
      std::find_if(positions.begin(), positions.end(), [&](const auto& one) { return one.feed == feed.key; });
  if (position == positions.end()) return std::optional<feeds::Stored>{};
  feeds::Stored stored{{position->instance_id, position->next_sequence}, position->last_sign_at, {}};
  for (const auto& machine : shop.machines()) {
    if (machine->record.feed == feed.key && machine->count.model()) stored.machines.push_back(*machine->count.model());
  }
  return std::optional{std::move(stored)};
}

// The sentence says more; what people need to know first is which kind of trouble it is.
std::optional<Saying> saying_of(const feeds::FollowerView& view) {
  if (view.last_error.empty()) return std::nullopt;
  switch (view.last_error_code) {
    case ErrorCode::unreachable:
      return Saying{"feed-unreachable"};
    case ErrorCode::timed_out:
      return Saying{"feed-late"};
    case ErrorCode::disk_full:
      return Saying{"disk-full"};
    default:
      return Saying{"feed-odd"};
  }
}

std::string state_of(const feeds::FollowerView& view) {
  if (!view.connected_since) return "lost";
  return view.behind > 0 ? "catching up" : "live";
}

}  // namespace

RunningFeeds::RunningFeeds(OpenShop& shop, FeedsOptions options) : shop_(shop), options_(std::move(options)) {}

Result<std::unique_ptr<RunningFeeds>> RunningFeeds::start(OpenShop& shop, FeedsOptions options) {
  std::unique_ptr<RunningFeeds> running{new RunningFeeds(shop, std::move(options))};
  for (const FeedRecord& feed : shop.record().feeds) {
    HW_TAKE(url, http::parse_url(feed.url));
    HW_TAKE(stored, stored_feed(shop, feed));
    running->feeds_.push_back(std::make_unique<Feed>(shop, feed, std::move(url), std::move(stored),
                                                     running->options_.clock, running->options_.report));
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
  std::vector<FeedSink*> sinks;
  for (auto& feed : feeds_) sinks.push_back(&feed->sink());
  try {
    return store_counting(shop_, sinks, options_.clock());
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
    const feeds::FollowerView view = feed->view();
    for (const auto& machine : shop_.machines()) {
      if (machine->record.feed != feed->sink().feed()) continue;
      FeedStatus status{state_of(view), view.last_sign_at, static_cast<std::int64_t>(view.behind), view.last_error,
                        saying_of(view)};
      if (const auto trouble = feed->sink().trouble_of(*machine)) {
        status.state = "lost";
        status.says = trouble->message;
        status.saying = trouble->saying;
      }
      show_state(*machine, std::move(status));
    }
  }
}

}  // namespace hw::service
