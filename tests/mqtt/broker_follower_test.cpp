#include "src/feeds/broker_follower.h"

#include <atomic>
#include <thread>

#include <gtest/gtest.h>

#include "src/service/broker_sink.h"
#include "tests/faults/server_process.h"
#include "tests/mqtt/private_broker.h"

namespace hw::mqtt_tests {
namespace {

class CountingSink : public feeds::RunSink {
 public:
  void take(const feeds::RunBatch& batch) override { next_ = batch.position.next_sequence; }
  std::uint64_t next() const { return next_; }

 private:
  std::atomic<std::uint64_t> next_ = 0;
};

TEST(BrokerFollower, HandsOnWhatComesAndSaysWhatIsStored) {
  const PrivateBroker broker;
  const auto url = *mqtt::parse_broker_url(broker.url("/floor"));
  std::mutex mutex;
  std::string kept;
  mqtt::Client machine(url, {},
                       {[&](const mqtt::Message& message) {
                          const std::lock_guard lock(mutex);
                          kept = message.payload;
                        },
                        [](const std::string&) {}});
  ASSERT_TRUE(machine.connect());
  ASSERT_TRUE(machine.subscribe(std::vector<std::string>{"hourwright/floor/m1/kept"}));
  ASSERT_TRUE(machine.publish("hourwright/floor/m1/model",
                              R"({"machine": "m1", "items": [{"id": "e", "category": "EVENT", "type": "EXECUTION"}]})",
                              mqtt::Retained::yes));
  CountingSink sink;
  http::CancelToken stop;
  feeds::BrokerFollower follower({.url = url, .aliases = {}, .machines = {{"m1", {}}}}, sink);
  std::thread thread([&] { follower.run(stop); });
  EXPECT_TRUE(faults::comes_true([&] { return follower.view().connected_since.has_value(); }));
  ASSERT_TRUE(machine.publish("hourwright/floor/m1/observations",
                              R"({"run": "a", "sequence": 1, "alive_at": "2026-03-02T06:00:00Z", "observations": []})",
                              mqtt::Retained::yes));
  EXPECT_TRUE(faults::comes_true([&] { return sink.next() == 2; }));
  follower.stored("m1", {"a", 2, now()});
  EXPECT_TRUE(faults::comes_true([&] {
    const std::lock_guard lock(mutex);
    return kept == R"({"run":"a","next_sequence":2})";
  }));
  stop.cancel();
  thread.join();
}

}  // namespace
}  // namespace hw::mqtt_tests
