#include "src/feeds/agent_chain.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

const Instant six_sharp = *parse_instant("2026-03-02T06:00:00Z");
Instant past_six(std::int64_t second) { return six_sharp + Duration::seconds(second); }

constexpr std::string_view probe_body =
    R"({"MTConnectDevices": {"jsonVersion": 2, "schemaVersion": "2.0", "Header": {"instanceId": 7},
    "Devices": {"Device": [{"id": "d", "name": "m1", "uuid": "u1", "DataItems": {"DataItem": [
    {"id": "e", "category": "EVENT", "type": "EXECUTION"}, {"id": "p", "category": "EVENT", "type": "POWER_STATE"}]}}]}}})";

struct Shown {
  const char* item;
  std::uint64_t sequence;
  std::int64_t second;
  const char* value;
};

std::string streams_body(std::uint64_t instance, std::uint64_t next, std::int64_t made_at,
                         const std::vector<Shown>& said) {
  std::string events;
  for (const Shown& one : said) {
    events += fmt::format(R"({}{{"dataItemId": "{}", "sequence": {}, "timestamp": "{}", "value": "{}"}})",
                          events.empty() ? "" : ",", one.item, one.sequence, print(past_six(one.second)), one.value);
  }
  return fmt::format(
      R"({{"MTConnectStreams": {{"jsonVersion": 2, "Header": {{"instanceId": {}, "firstSequence": 1, "lastSequence": {},
      "nextSequence": {}, "creationTime": "{}"}}, "Streams": {{"DeviceStream": [{{"name": "m1", "uuid": "u1",
      "ComponentStream": [{{"component": "Path", "componentId": "c", "Events": {{"Any": [{}]}}}}]}}]}}}}}})",
      instance, next - 1, next, print(past_six(made_at)), events);
}

class AgentDocuments : public ::testing::Test {
 protected:
  AgentChain chain{"u1", {}, {}};

  std::optional<RunBatch> hear(DocumentKind kind, std::string_view body, std::int64_t now, bool is_retained = false) {
    auto heard = chain.hear({kind, body, is_retained}, past_six(now));
    EXPECT_TRUE(heard) << heard.error().message;
    return heard ? std::move(*heard) : std::nullopt;
  }
  std::optional<RunBatch> current(const std::string& body, std::int64_t now, bool is_retained = false) {
    return hear(DocumentKind::current, body, now, is_retained);
  }
  std::optional<RunBatch> sample(const std::string& body, std::int64_t now) {
    return hear(DocumentKind::sample, body, now);
  }
  // Execution READY, power ON as of second 0, next sequence 11.
  void begin() {
    ASSERT_TRUE(hear(DocumentKind::probe, probe_body, 0));
    ASSERT_TRUE(current(streams_body(7, 11, 0, {{"e", 9, -500, "READY"}, {"p", 4, -900, "ON"}}), 0));
  }
};

TEST_F(AgentDocuments, TheStateOfNowIsTakenAtTheFirstContact) {
  EXPECT_FALSE(sample(streams_body(7, 11, 0, {{"e", 9, -500, "READY"}}), 0));
  const auto model = hear(DocumentKind::probe, probe_body, 0);
  ASSERT_TRUE(model && model->model);
  EXPECT_EQ(model->model->name, "m1");
  EXPECT_FALSE(sample(streams_body(7, 11, 0, {{"e", 9, -500, "READY"}}), 0));
  const auto batch = current(streams_body(7, 11, 0, {{"e", 9, -500, "READY"}, {"p", 4, -900, "ON"}}), 0);
  ASSERT_TRUE(batch);
  EXPECT_FALSE(batch->interruption);
  ASSERT_EQ(batch->observations.size(), 2U);
  EXPECT_EQ(batch->observations[0].at, past_six(0));
  EXPECT_EQ(batch->position, (RunPosition{"7", 11, past_six(0)}));
}

TEST_F(AgentDocuments, SamplesGoOnAndTheSameOneAgainIsDropped) {
  begin();
  const std::string document = streams_body(7, 20, 5, {{"e", 15, 3, "ACTIVE"}});
  const auto batch = sample(document, 5);
  ASSERT_TRUE(batch);
  ASSERT_EQ(batch->observations.size(), 1U);
  EXPECT_EQ(batch->observations[0].at, past_six(3));
  EXPECT_EQ(batch->position, (RunPosition{"7", 20, past_six(5)}));
  EXPECT_FALSE(sample(document, 6));
  const auto overlapping = sample(streams_body(7, 22, 8, {{"e", 15, 3, "ACTIVE"}, {"e", 21, 7, "READY"}}), 8);
  ASSERT_TRUE(overlapping);
  EXPECT_EQ(overlapping->observations.size(), 1U);
}

TEST_F(AgentDocuments, ACurrentThatKnowsMoreOnlyWaitsForItsSample) {
  begin();
  EXPECT_FALSE(current(streams_body(7, 13, 5, {{"e", 12, 4, "ACTIVE"}, {"p", 4, -900, "ON"}}), 5));
  EXPECT_TRUE(sample(streams_body(7, 13, 5, {{"e", 12, 4, "ACTIVE"}}), 5));
}

TEST_F(AgentDocuments, WhatCurrentShowsAndNoSampleBroughtIsUnknownTime) {
  begin();
  ASSERT_TRUE(sample(streams_body(7, 20, 10, {{"p", 18, 9, "OFF"}}), 10));  // the sample with 15 was lost
  const auto batch = current(streams_body(7, 20, 12, {{"e", 15, 3, "ACTIVE"}, {"p", 18, 9, "OFF"}}), 12);
  ASSERT_TRUE(batch);
  ASSERT_TRUE(batch->interruption);
  EXPECT_EQ(batch->interruption->from, past_six(0)) << "since then it may have been otherwise";
  EXPECT_EQ(batch->interruption->to, past_six(12));
  ASSERT_EQ(batch->observations.size(), 4U);
  EXPECT_TRUE(counters::is_unknown(batch->observations[0].value));
  EXPECT_EQ(batch->observations[2].at, past_six(12));
  EXPECT_FALSE(current(streams_body(7, 20, 13, {{"e", 15, 3, "ACTIVE"}, {"p", 18, 9, "OFF"}}), 13)->interruption);
}

TEST_F(AgentDocuments, ASampleThatLacksWhatCurrentHadShownIsNotTaken) {
  begin();
  EXPECT_FALSE(current(streams_body(7, 13, 5, {{"e", 12, 4, "ACTIVE"}, {"p", 4, -900, "ON"}}), 5));
  EXPECT_FALSE(sample(streams_body(7, 20, 10, {{"e", 18, 9, "READY"}}), 10));
  EXPECT_TRUE(chain.is_behind());
  const auto batch = current(streams_body(7, 20, 11, {{"e", 18, 9, "READY"}, {"p", 4, -900, "ON"}}), 11);
  ASSERT_TRUE(batch && batch->interruption);
  EXPECT_EQ(batch->interruption->from, past_six(0));
  EXPECT_EQ(batch->interruption->to, past_six(11));
}

TEST_F(AgentDocuments, AfterALostConnectionCurrentProvesThatNothingWasMissed) {
  begin();
  chain.begin_session();
  EXPECT_FALSE(sample(streams_body(7, 13, 30, {{"e", 12, 29, "ACTIVE"}}), 30));
  EXPECT_TRUE(chain.is_behind());
  const auto batch = current(streams_body(7, 12, 31, {{"e", 9, -500, "READY"}, {"p", 4, -900, "ON"}}), 31);
  ASSERT_TRUE(batch);
  EXPECT_FALSE(batch->interruption);
  EXPECT_TRUE(batch->observations.empty());
  EXPECT_EQ(batch->position, (RunPosition{"7", 12, past_six(31)}));
  EXPECT_FALSE(chain.is_behind());
}

TEST_F(AgentDocuments, AfterALostConnectionWhatWasMissedIsUnknown) {
  begin();
  chain.begin_session();
  const auto batch = current(streams_body(7, 40, 31, {{"e", 35, 20, "ACTIVE"}, {"p", 4, -900, "ON"}}), 31);
  ASSERT_TRUE(batch);
  ASSERT_TRUE(batch->interruption);
  EXPECT_EQ(batch->interruption->from, past_six(0));
  EXPECT_EQ(batch->interruption->to, past_six(31));
}

TEST_F(AgentDocuments, AnotherInstanceBeginsAnew) {
  begin();
  EXPECT_FALSE(sample(streams_body(8, 3, 50, {{"e", 2, 49, "ACTIVE"}}), 50));
  EXPECT_TRUE(chain.is_behind());
  const auto batch = current(streams_body(8, 3, 51, {{"e", 2, 49, "ACTIVE"}, {"p", 1, 48, "ON"}}), 51);
  ASSERT_TRUE(batch);
  ASSERT_TRUE(batch->interruption);
  EXPECT_EQ(batch->interruption->to, past_six(51));
  EXPECT_EQ(batch->position, (RunPosition{"8", 3, past_six(51)}));
  EXPECT_FALSE(
      current(streams_body(7, 11, 0, {{"e", 9, -500, "READY"}}), 52, true));  // the old one, which the broker kept
}

TEST_F(AgentDocuments, WhatTheBrokerHadKeptIsTakenByItsOwnTime) {
  begin();
  chain.begin_session();
  const auto batch = current(streams_body(7, 11, 20, {{"e", 9, -500, "READY"}, {"p", 4, -900, "ON"}}), 5'000, true);
  ASSERT_TRUE(batch);
  EXPECT_EQ(batch->position.alive_at, past_six(20));
}

TEST_F(AgentDocuments, DocumentsOfOthersAndContradictionsAreRefused) {
  begin();
  EXPECT_FALSE(chain.hear({DocumentKind::probe, R"({"MTConnectDevices": {"Header": {"instanceId": 7}, "Devices":
      {"Device": [{"id": "x", "uuid": "other"}]}}})",
                           false},
                          past_six(1)));
  EXPECT_FALSE(chain.hear({DocumentKind::sample, streams_body(7, 12, 1, {{"e", 15, 1, "READY"}}), false}, past_six(1)));
  EXPECT_FALSE(chain.hear({DocumentKind::sample, "{", false}, past_six(1)));
}

}  // namespace
}  // namespace hw::feeds
