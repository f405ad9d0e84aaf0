#pragma once
// A shop in this process that follows a simulated floor over a broker, by a clock that only the test moves.

#include <atomic>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "libs/sql/test_folder.h"
#include "src/service/running_feeds.h"
#include "src/simulate/floor.h"
#include "src/simulate/message_publisher.h"
#include "tests/mqtt/private_broker.h"

namespace hw::mqtt_tests {

// Six machines of five kinds, feeds that lose nothing themselves. No grinder: one tells positions only, whose motion
// counts with the next position, so that at any moment the last seconds are still to come.
simulate::FloorPlan faithful_plan();
std::vector<simulate::MachineEntry> six_machines();

class PlayedFloor {
 public:
  // `url_tail`: what follows host and port in the feed's address, "/floor" for plain messages.
  explicit PlayedFloor(std::string_view url_tail = "/floor");
  ~PlayedFloor();

  // The server follows from now on, from what is stored.
  void open_server();
  // As an orderly stop does.
  void close_server();
  // The floor publishes from now on.
  void publish(simulate::OutboxOptions outbox = {}, simulate::SendFaults faults = {});
  // Moves the clock on minute by minute while the floor publishes.
  void play_minutes(int minutes);
  // Waits until the publisher has nothing left that is not stored.
  void wait_until_stored();
  // Waits until something that was reported contains the text.
  bool has_reported(std::string_view text) const;

  // The server has been told what each machine is.
  bool are_models_known() const;
  // Expects of every machine the true hours since the beginning, and nothing unknown.
  void expect_truth();
  // One counter of the machine now.
  service::CounterNow counter(std::size_t machine, std::string_view key) const;
  service::FeedStatus status(std::size_t machine) const;

  Instant clock() const { return Instant{clock_ns_.load()}; }
  void move_clock(Duration by) { clock_ns_ += by.ns; }
  mqtt::BrokerUrl url() const { return *mqtt::parse_broker_url(broker.url(url_tail_)); }
  simulate::MessagePublisher& publisher() { return *publisher_; }

  PrivateBroker broker{"allow_anonymous true\nmax_queued_messages 0\n"};
  const Instant begin = *parse_instant("2026-04-08T08:45:00Z");
  const simulate::Floor floor{faithful_plan(), six_machines()};

 private:
  std::string url_tail_;
  sql::TestFolder folder_;
  std::atomic<std::int64_t> clock_ns_{begin.ns};
  mutable std::mutex mutex_;
  std::string reported_;  // guarded by mutex_
  std::unique_ptr<service::Store> store_;
  std::unique_ptr<service::OpenShop> shop_;
  std::unique_ptr<service::RunningFeeds> feeds_;
  std::unique_ptr<simulate::MessagePublisher> publisher_;
};

}  // namespace hw::mqtt_tests
