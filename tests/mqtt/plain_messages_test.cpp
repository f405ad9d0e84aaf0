// A simulated floor over a real broker: whatever happens between the machines and the disk, the counted hours are the
// truth.

#include <gtest/gtest.h>

#include "src/simulate/message_publisher.h"
#include "tests/faults/server_process.h"
#include "tests/mqtt/played_floor.h"

namespace hw::mqtt_tests {
namespace {

TEST(PlainMessages, CountTheTruth) {
  PlayedFloor played;
  played.open_server();
  played.publish();
  played.play_minutes(240);
  played.expect_truth();
  EXPECT_TRUE(faults::comes_true([&] { return played.status(0).state == "live"; }));
}

TEST(PlainMessages, OverMqtt311CountTheTruth) {
  PlayedFloor played("/floor?version=3.1.1");
  played.open_server();
  played.publish();
  played.play_minutes(60);
  played.expect_truth();
}

TEST(PlainMessages, RepeatedSwappedAndDroppedOnTheWayCountTheTruth) {
  PlayedFloor played;
  played.open_server();
  played.publish({}, {.repeat_every = 7, .swap_every = 11, .drop_every = 23, .messages = 250});
  played.play_minutes(45);
  played.expect_truth();
}

TEST(PlainMessages, SurviveABrokerThatIsKilled) {
  PlayedFloor played;
  played.open_server();
  played.publish();
  for (int kill = 0; kill < 3; ++kill) {
    played.play_minutes(20);
    played.broker.kill();
    EXPECT_TRUE(faults::comes_true([&] {
      const service::FeedStatus status = played.status(0);
      return status.state == "lost" && status.saying && status.saying->code == "broker-unreachable";
    })) << played.status(0).says;
    played.play_minutes(20);
    played.broker.start();
  }
  played.expect_truth();
}

TEST(PlainMessages, SurviveAServerThatWasAway) {
  PlayedFloor played;
  played.open_server();
  played.publish();
  for (int stop = 0; stop < 3; ++stop) {
    played.play_minutes(15);
    played.close_server();
    played.play_minutes(15);
    played.open_server();
  }
  played.expect_truth();
}

TEST(PlainMessages, ThatNobodyKeepsLeaveUnknownTimeAndCountNoOther) {
  PlayedFloor played;
  played.open_server();
  played.publish({.keeps = false}, {.drop_every = 40});
  played.play_minutes(120);
  EXPECT_TRUE(played.has_reported("messages were lost, and the publisher does not keep them"));
  double unknown_h = 0;
  for (std::size_t m = 0; m < played.floor.machines().size(); ++m) {
    const simulate::TrueUse truth = played.floor.truth(m, played.begin, played.clock());
    // Until the last message is there, the values before it are held.
    EXPECT_TRUE(faults::comes_true(
        [&] { return played.counter(m, "operating").counted <= truth.operating.as_hours() + 1e-12; }));
    unknown_h += played.counter(m, "operating").unknown_h;
  }
  EXPECT_GT(unknown_h, 0);
}

TEST(PlainMessages, ThatAreWrongAreToldWithTopicAndFieldAndBreakNothing) {
  PlayedFloor played;
  played.open_server();
  played.publish();
  mqtt::Client other(played.url(), {}, {[](const mqtt::Message&) {}, [](const std::string&) {}});
  ASSERT_TRUE(other.connect());
  for (const char* payload : {"{", R"({"run": "1"})", R"([])", ""}) {
    ASSERT_TRUE(other.publish("hourwright/floor/m1/observations", payload, mqtt::Retained::no));
  }
  ASSERT_TRUE(other.publish("hourwright/floor/m1/observations",
                            R"({"run": "1", "sequence": 1, "alive_at": "noon", "observations": []})",
                            mqtt::Retained::no));
  ASSERT_TRUE(other.publish("hourwright/floor/m2/model", R"({"machine": "m3", "items": []})", mqtt::Retained::no));
  ASSERT_TRUE(
      other.publish("hourwright/floor/stranger/model", R"({"machine": "stranger", "items": []})", mqtt::Retained::no));
  played.play_minutes(30);
  EXPECT_TRUE(played.has_reported("hourwright/floor/m1/observations: alive_at"));
  EXPECT_TRUE(played.has_reported("hourwright/floor/m2/model: machine"));
  EXPECT_TRUE(played.has_reported("stranger publishes to this feed and is no machine of the shop"));
  played.expect_truth();
}

// A broker gives what it has kept to whoever comes: old values, which are not those of now.
TEST(PlainMessages, ThatABrokerHadKeptAreNotTakenForNow) {
  PlayedFloor played;
  played.open_server();
  played.publish();
  played.play_minutes(30);
  played.wait_until_stored();
  mqtt::Client other(played.url(), {}, {[](const mqtt::Message&) {}, [](const std::string&) {}});
  ASSERT_TRUE(other.connect());
  for (const char* run : {"1", "0"}) {  // of this run, and of one before it
    const std::string old = fmt::format(
        R"({{"run": "{}", "sequence": 1, "alive_at": "{}", "observations": [{{"at": "{}", "item": "m1-exec", "value": "ACTIVE"}}]}})",
        run, print(played.begin), print(played.begin));
    ASSERT_TRUE(other.publish("hourwright/floor/m1/observations", old, mqtt::Retained::yes));
    played.close_server();
    played.open_server();
    played.play_minutes(10);
  }
  played.expect_truth();
}

TEST(PlainMessages, OfAPublisherThatBeginsAgainLeaveTheTimeBetweenUnknown) {
  PlayedFloor played;
  played.open_server();
  played.publish({.run = "first"});
  played.play_minutes(10);
  played.wait_until_stored();
  const double before_h = played.counter(0, "powered").unknown_h;
  EXPECT_EQ(before_h, 0);
  played.move_clock(Duration::seconds(600));
  played.publish({.run = "second"});
  played.play_minutes(10);
  played.wait_until_stored();
  EXPECT_TRUE(played.has_reported("m1: unknown from"));
  EXPECT_NEAR(played.counter(0, "powered").unknown_h, 600.0 / 3600, 0.01);
}

}  // namespace
}  // namespace hw::mqtt_tests
