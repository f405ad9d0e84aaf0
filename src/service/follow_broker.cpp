// A feed of machines over a message broker.

#include <thread>

#include "src/feeds/broker_follower.h"
#include "src/service/broker_sink.h"
#include "src/service/followed_feed.h"

namespace hw::service {
namespace {

constexpr Duration silent_after = Duration::seconds(60);

// The sentence says more; what people need to know first is which kind of trouble it is.
Saying saying_of(const Error& trouble) {
  switch (trouble.code) {
    case ErrorCode::not_allowed:
      return Saying{"broker-refuses"};
    case ErrorCode::timed_out:
      return Saying{"broker-late"};
    default:
      return Saying{"broker-unreachable"};
  }
}

FeedStatus status_without(const feeds::BrokerView& broker) {
  FeedStatus status;
  status.state = "lost";
  status.says = broker.last_error.message;
  if (!status.says.empty()) status.saying = saying_of(broker.last_error);
  return status;
}

FeedStatus status_with(const feeds::BrokerView& broker, const feeds::MachineFeedView& view, Instant now) {
  FeedStatus status;
  const bool is_silent = now - view.last_sign_at.value_or(*broker.connected_since) > silent_after;
  status.state = is_silent || !view.last_sign_at ? "lost" : (view.is_behind ? "catching up" : "live");
  status.says = view.trouble;
  if (!view.trouble.empty()) status.saying = Saying{"feed-odd-message"};
  if (view.trouble.empty() && is_silent) {
    status.says = "no message of the machine comes";
    status.saying = Saying{"feed-silent"};
  }
  return status;
}

// One connection, and where its messages go.
class BrokerFeed : public FollowedFeed {
 public:
  BrokerFeed(OpenShop& shop, const FeedRecord& record, const mqtt::BrokerUrl& url,
             const std::vector<MessagePosition>& positions, const Following& following)
      : key_(record.key),
        clock_(following.clock),
        sink_(shop, record.key, positions, following.report),
        follower_(settings_of(shop, record, url, sink_, following), sink_) {
    sink_.set_on_stored(
        [this](const std::string& device, const feeds::RunPosition& position) { follower_.stored(device, position); });
    thread_ = std::thread([this] { follower_.run(stop_); });
  }
  ~BrokerFeed() override { end(); }

  void stop() override { end(); }
  CountedFeed& counted() override { return sink_; }
  const std::string& key() const override { return key_; }

  FeedStatus status_of(const OpenMachine& machine) const override {
    const feeds::BrokerView broker = follower_.view();
    const feeds::MachineFeedView view = follower_.view(machine.record.device);
    FeedStatus status = broker.connected_since ? status_with(broker, view, clock_()) : status_without(broker);
    status.last_sign_at = view.last_sign_at;
    return status;
  }

 private:
  void end() {
    stop_.cancel();
    if (thread_.joinable()) thread_.join();
  }
  static feeds::BrokerFeed settings_of(const OpenShop& shop, const FeedRecord& record, const mqtt::BrokerUrl& url,
                                       const BrokerSink& sink, const Following& following) {
    feeds::BrokerFeed settings;
    settings.url = url;
    settings.aliases = {shop.record().aliases.begin(), shop.record().aliases.end()};
    settings.machines = sink.followed();
    settings.seed = std::hash<std::string>{}(record.key);  // so that feeds do not all come back at once
    settings.clock = following.clock;
    settings.note = [feed = record.key, report = following.report](const feeds::Note& note) {
      report(fmt::format("feed {}: {} {}", feed, note.machine, note.text));
    };
    return settings;
  }

  std::string key_;
  std::function<Instant()> clock_;
  BrokerSink sink_;
  http::CancelToken stop_;
  feeds::BrokerFollower follower_;
  std::thread thread_;
};

}  // namespace

Result<std::unique_ptr<FollowedFeed>> follow_broker(OpenShop& shop, const FeedRecord& record,
                                                    const Following& following) {
  HW_TAKE(url, mqtt::parse_broker_url(record.url));
  HW_TAKE(positions, shop.store().message_positions());
  return std::make_unique<BrokerFeed>(shop, record, url, positions, following);
}

}  // namespace hw::service
