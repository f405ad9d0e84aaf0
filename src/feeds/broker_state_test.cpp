#include "src/feeds/broker_state.h"

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

const Instant broker_noon = *parse_instant("2026-03-02T12:00:00Z");
constexpr std::string_view plain_model =
    R"({"machine": "m1", "items": [{"id": "exec", "category": "EVENT", "type": "EXECUTION"}]})";

std::string observations(std::uint64_t sequence, std::string_view second) {
  return fmt::format(R"({{"run": "a", "sequence": {}, "alive_at": "2026-03-02T11:59:{}Z", "observations": []}})",
                     sequence, second);
}

std::string probe_of(std::string_view uuid) {
  return fmt::format(R"({{"MTConnectDevices": {{"Header": {{"instanceId": 7}}, "Devices": {{"Device": [{{"id": "d",
      "name": "m1", "uuid": "{}", "DataItems": {{"DataItem": [{{"id": "e", "category": "EVENT",
      "type": "EXECUTION"}}]}}}}]}}}}}})",
                     uuid);
}

TEST(BrokerState, ASessionBeginsWithWhatIsStoredAndWhatIsWanted) {
  BrokerState fresh("floor", {}, {{"m1", {}}});
  EXPECT_EQ(fresh.topic_filters(),
            (std::vector<std::string>{"hourwright/floor/+/model", "hourwright/floor/+/observations"}));
  EXPECT_EQ(fresh.begin_session(broker_noon),
            (std::vector<Publication>{{"hourwright/floor/m1/wanted", R"({"run":"","next_sequence":1})", false}}));
  BrokerState state("floor", {}, {{"m1", {{"a", 5, broker_noon}, std::nullopt}}});
  EXPECT_EQ(state.begin_session(broker_noon),
            (std::vector<Publication>{{"hourwright/floor/m1/kept", R"({"run":"a","next_sequence":5})", true},
                                      {"hourwright/floor/m1/wanted", R"({"run":"a","next_sequence":5})", false}}));
}

TEST(BrokerState, WhatIsStoredIsSaidOnce) {
  BrokerState state("floor", {}, {{"m1", {}}});
  const auto said = state.stored("m1", {"a", 2, broker_noon});
  ASSERT_TRUE(said);
  EXPECT_TRUE(said->is_retained);
  EXPECT_FALSE(state.stored("m1", {"a", 2, broker_noon + Duration::seconds(1)}));
  EXPECT_FALSE(state.stored("stranger", {"a", 2, broker_noon}));
}

TEST(BrokerState, WhatIsMissingIsWantedAgainThoughNothingMoreComes) {
  BrokerState state("floor", {}, {{"m1", {}}});
  ASSERT_TRUE(state.hear({"hourwright/floor/m1/model", plain_model, true}, broker_noon).batch);
  const auto first = state.hear({"hourwright/floor/m1/observations", observations(2, "10"), false}, broker_noon);
  EXPECT_FALSE(first.batch);
  ASSERT_EQ(first.publications.size(), 1U);
  EXPECT_EQ(first.publications[0].payload, R"({"run":"a","next_sequence":1})");
  EXPECT_TRUE(state.view("m1").is_behind);
  EXPECT_TRUE(state.ask_again(broker_noon + Duration::millis(500)).empty());
  EXPECT_EQ(state.ask_again(broker_noon + Duration::seconds(1)), first.publications);
}

TEST(BrokerState, AMessageThatCannotBeReadIsShownUntilOneCan) {
  BrokerState state("floor", {}, {{"m1", {}}});
  (void)state.hear({"hourwright/floor/m1/model", plain_model, true}, broker_noon);
  EXPECT_FALSE(state.view("m1").last_sign_at) << "what the broker had kept is no sign of life";
  (void)state.hear({"hourwright/floor/m1/observations", "{}", false}, broker_noon);
  EXPECT_NE(state.view("m1").trouble.find("hourwright/floor/m1/observations: "), std::string::npos);
  EXPECT_EQ(state.take_notes().size(), 1U);
  EXPECT_TRUE(state.hear({"hourwright/floor/m1/observations", observations(1, "10"), false}, broker_noon).batch);
  EXPECT_EQ(state.view("m1").trouble, "");
  EXPECT_EQ(state.view("m1").last_sign_at, broker_noon);
}

TEST(BrokerState, AnAgentsDeviceIsFoundByItsNameOrItsUuid) {
  for (const char* device : {"m1", "u1"}) {
    BrokerState state("", {}, {{device, {}}});
    const auto outcome = state.hear({"MTConnect/Probe/u1", probe_of("u1"), true}, broker_noon);
    ASSERT_TRUE(outcome.batch) << device;
    EXPECT_EQ(outcome.batch->device, device);
  }
  BrokerState state("", {}, {{"other", {}}});
  EXPECT_FALSE(state.hear({"MTConnect/Probe/u1", probe_of("u1"), true}, broker_noon).batch);
  EXPECT_EQ(state.take_notes().size(), 1U);
}

TEST(BrokerState, ASecondUuidOfTheSameNameIsPassedOver) {
  BrokerState state("", {}, {{"m1", {}}});
  EXPECT_TRUE(state.hear({"MTConnect/Probe/u1", probe_of("u1"), true}, broker_noon).batch);
  EXPECT_FALSE(state.hear({"MTConnect/Probe/u2", probe_of("u2"), true}, broker_noon).batch);
  ASSERT_EQ(state.take_notes().size(), 1U);
}

TEST(BrokerState, AnAgentThatLeavesIsTold) {
  BrokerState state("", {}, {{"m1", {}}});
  (void)state.hear({"MTConnect/Probe/u1", probe_of("u1"), false}, broker_noon);
  (void)state.hear({"MTConnect/Probe/u1/Availability", "UNAVAILABLE", false}, broker_noon);
  EXPECT_EQ(state.view("m1").trouble, "the agent left the broker");
  EXPECT_TRUE(state.view("m1").is_behind);
}

}  // namespace
}  // namespace hw::feeds
