// Simulated agents that publish their documents in JSON over a real broker.

#include <gtest/gtest.h>

#include "src/simulate/agent.h"
#include "src/simulate/json_form.h"
#include "tests/faults/server_process.h"
#include "tests/mqtt/played_floor.h"

namespace hw::mqtt_tests {
namespace {

class PublishedAgent {
 public:
  PublishedAgent(PlayedFloor& played, simulate::JsonForm form)
      : played_(played),
        form_(form),
        source_(simulate::play(played.floor, {played.clock(), played.clock(), 1, {}})),
        agent_(played.floor.machines(), {.instance_id = 7}, played.clock()),
        client_(played.url(), {}, {[](const mqtt::Message&) {}, [](const std::string&) {}}) {
    EXPECT_TRUE(client_.connect());
    std::vector<simulate::Arrival> standing;
    source_->take_standing(standing);
    agent_.append(standing);
    from_ = agent_.next_sequence();
    for (std::size_t m = 0; m < played_.floor.machines().size(); ++m) {
      say("Probe", m, agent_.probe(m, played_.clock()).xml);
    }
    say_current();
  }

  void say_current() {
    for (std::size_t m = 0; m < played_.floor.machines().size(); ++m) {
      say("Current", m, agent_.current(m, played_.clock()).xml);
    }
  }
  // What came since the last one; `is_lost`: on the way.
  void say_samples(bool is_lost = false) {
    std::vector<simulate::Arrival> arrivals;
    source_->take(played_.clock(), arrivals);
    agent_.append(arrivals);
    for (std::size_t m = 0; m < played_.floor.machines().size() && !is_lost; ++m) {
      const auto sample = agent_.sample({m, from_, 100'000}, played_.clock());
      ASSERT_EQ(sample.next_sequence, agent_.next_sequence());
      say("Sample", m, sample.xml);
    }
    from_ = agent_.next_sequence();
  }

 private:
  void say(const char* kind, std::size_t machine, const std::string& xml) {
    const std::string topic = fmt::format("MTConnect/{}/{}", kind, played_.floor.machines()[machine].uuid);
    EXPECT_TRUE(client_.publish(topic, simulate::print_json_form(xml, form_), mqtt::Retained::yes));
  }

  PlayedFloor& played_;
  simulate::JsonForm form_;
  std::unique_ptr<simulate::Source> source_;
  simulate::Agent agent_;
  mqtt::Client client_;
  std::uint64_t from_ = 1;
};

class AgentOverABroker : public ::testing::TestWithParam<simulate::JsonForm> {
 protected:
  PlayedFloor played{""};

  bool is_heard() const {
    for (std::size_t m = 0; m < played.floor.machines().size(); ++m) {
      const service::FeedStatus status = played.status(m);
      if (status.last_sign_at != played.clock() || status.state == "lost") return false;
    }
    return true;
  }
  // Documents say when they were made: the clock stands until they are heard, or they would be minutes old.
  void wait_until_heard() {
    ASSERT_TRUE(faults::comes_true([&] { return is_heard(); }));
  }
  // A server that has just begun gets what was said before as what the broker had kept, which is no sign of life.
  void say_until_heard(PublishedAgent& agent) {
    ASSERT_TRUE(faults::comes_true([&] {
      agent.say_current();
      return faults::comes_true([&] { return is_heard(); }, Duration::millis(500));
    }));
  }
  double operating_truth(std::size_t machine) const {
    return played.floor.truth(machine, played.begin, played.clock()).operating.as_hours();
  }
};
INSTANTIATE_TEST_SUITE_P(Json, AgentOverABroker, ::testing::Values(simulate::JsonForm::v1, simulate::JsonForm::v2));

TEST_P(AgentOverABroker, CountsTheTruth) {
  played.open_server();
  PublishedAgent agent(played, GetParam());
  say_until_heard(agent);
  for (int minute = 1; minute <= 60; ++minute) {
    played.move_clock(Duration::seconds(60));
    agent.say_samples();
    if (minute % 10 == 0) agent.say_current();
    wait_until_heard();
  }
  for (std::size_t m = 0; m < played.floor.machines().size(); ++m) {
    EXPECT_TRUE(faults::comes_true([&] {
      return std::abs(played.counter(m, "operating").counted - operating_truth(m)) < 1e-12;
    })) << m
        << ": " << played.counter(m, "operating").counted << " is not " << operating_truth(m);
    EXPECT_EQ(played.counter(m, "operating").unknown_h, 0);
  }
}

TEST_P(AgentOverABroker, WhatIsLostOnTheWayIsUnknownTime) {
  played.open_server();
  PublishedAgent agent(played, GetParam());
  say_until_heard(agent);
  for (int minute = 1; minute <= 60; ++minute) {
    played.move_clock(Duration::seconds(60));
    agent.say_samples(minute == 30);
    agent.say_current();
    wait_until_heard();
  }
  EXPECT_TRUE(played.has_reported("documents of the agent were lost"));
  double unknown_h = 0;
  for (std::size_t m = 0; m < played.floor.machines().size(); ++m) {
    EXPECT_TRUE(faults::comes_true([&] {
      const service::CounterNow now = played.counter(m, "operating");
      return now.counted <= operating_truth(m) + 1e-12 && now.counted + now.unknown_h >= operating_truth(m) - 1e-12;
    })) << m;
    unknown_h += played.counter(m, "operating").unknown_h;
  }
  EXPECT_GT(unknown_h, 0);
}

TEST_P(AgentOverABroker, AfterAServerThatWasAwayWhatItMissedIsUnknownTime) {
  played.open_server();
  PublishedAgent agent(played, GetParam());
  say_until_heard(agent);
  for (int minute = 1; minute <= 60; ++minute) {
    if (minute == 20) played.close_server();
    if (minute == 30) played.open_server();
    played.move_clock(Duration::seconds(60));
    agent.say_samples();
    agent.say_current();
    if (minute < 20 || minute > 30) wait_until_heard();
    if (minute == 30) say_until_heard(agent);
  }
  EXPECT_TRUE(played.has_reported("documents of the agent were lost"));
  for (std::size_t m = 0; m < played.floor.machines().size(); ++m) {
    EXPECT_TRUE(faults::comes_true([&] {
      const service::CounterNow now = played.counter(m, "operating");
      return now.counted <= operating_truth(m) + 1e-12 && now.counted + now.unknown_h >= operating_truth(m) - 1e-12;
    })) << m;
  }
}

}  // namespace
}  // namespace hw::mqtt_tests
