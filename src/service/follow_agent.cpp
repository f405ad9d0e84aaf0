// A feed that is an agent over HTTP.

#include <algorithm>
#include <thread>

#include "src/feeds/agent_follower.h"
#include "src/service/followed_feed.h"

namespace hw::service {
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

// Its address, where its observations go, and its thread.
class AgentFeed : public FollowedFeed {
 public:
  AgentFeed(OpenShop& shop, const FeedRecord& record, http::Url url, std::optional<feeds::Stored> stored,
            const Following& following)
      : key_(record.key),
        sink_(shop, record.key, stored ? std::optional{stored->position} : std::nullopt, following.report),
        follower_({std::move(url), ""}, settings_of(shop, record), std::move(stored), sink_, following.clock),
        thread_([this] { follower_.run(stop_); }) {}
  ~AgentFeed() override { end(); }

  void stop() override { end(); }
  CountedFeed& counted() override { return sink_; }
  const std::string& key() const override { return key_; }

  FeedStatus status_of(const OpenMachine& machine) const override {
    const feeds::FollowerView view = follower_.view();
    FeedStatus status{state_of(view), view.last_sign_at, static_cast<std::int64_t>(view.behind), view.last_error,
                      saying_of(view)};
    if (const auto trouble = sink_.trouble_of(machine)) {
      status.state = "lost";
      status.says = trouble->message;
      status.saying = trouble->saying;
    }
    return status;
  }

 private:
  void end() {
    stop_.cancel();
    if (thread_.joinable()) thread_.join();
  }
  static feeds::FollowerSettings settings_of(const OpenShop& shop, const FeedRecord& record) {
    feeds::FollowerSettings settings;
    settings.feed = record.key;
    settings.seed = std::hash<std::string>{}(record.key);  // so that feeds do not all come back at once
    settings.aliases = {shop.record().aliases.begin(), shop.record().aliases.end()};
    return settings;
  }

  std::string key_;
  FeedSink sink_;
  http::CancelToken stop_;
  feeds::AgentFollower follower_;
  std::thread thread_;
};

}  // namespace

Result<std::unique_ptr<FollowedFeed>> follow_agent(OpenShop& shop, const FeedRecord& record,
                                                   const Following& following) {
  HW_TAKE(url, http::parse_url(record.url));
  HW_TAKE(stored, stored_feed(shop, record));
  return std::make_unique<AgentFeed>(shop, record, std::move(url), std::move(stored), following);
}

}  // namespace hw::service
