#include "src/feeds/heard_document.h"

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

TEST(HeardDocument, IsInOrderOfSequenceAndTellsWhatItDoesNotKnow) {
  counters::MachineModel mill;
  mill.name = "mill";
  mill.items.resize(1);
  mill.items[0].id = "ex";
  mill.items[0].role = counters::Role::execution;
  const ItemIndex index(std::span(&mill, 1));
  Notes notes;
  Remarks remarks(std::span(&mill, 1), notes);
  const auto heard = hear_document(R"(<MTConnectStreams><Header instanceId="4" nextSequence="9"/><Streams><DeviceStream
      name="mill"><ComponentStream component="Path"><Events>
      <Execution dataItemId="ex" timestamp="2026-03-02T05:00:02Z" sequence="8">READY</Execution>
      <Execution dataItemId="ex" timestamp="2026-03-02T05:00:01Z" sequence="7">ACTIVE</Execution>
      <Execution dataItemId="zz" timestamp="2026-03-02T05:00:01Z" sequence="6">ACTIVE</Execution>
      </Events></ComponentStream></DeviceStream></Streams></MTConnectStreams>)",
                                   "feed", index, Vocabulary(), remarks);
  ASSERT_TRUE(heard.has_value());
  EXPECT_EQ(heard->header.instance_id, 4U);
  ASSERT_EQ(heard->arrivals.size(), 2U);
  EXPECT_EQ(heard->arrivals[0].sequence, 7U);
  EXPECT_EQ(heard->unknown_items, (std::vector<std::pair<std::string, std::string>>{{"mill", "zz"}}));
  EXPECT_EQ(heard->tally.observations, 3U);
}

TEST(HeardDocument, RefusalOfTheAgentIsAValue) {
  const ItemIndex index({});
  Notes notes;
  Remarks remarks({}, notes);
  const auto heard =
      hear_document(R"(<MTConnectError><Header instanceId="4"/><Errors><Error errorCode="OUT_OF_RANGE">x</Error>
      </Errors></MTConnectError>)",
                    "feed", index, Vocabulary(), remarks);
  ASSERT_TRUE(heard.has_value());
  EXPECT_EQ(heard->agent_error, (AgentError{4, "OUT_OF_RANGE", "x"}));
  EXPECT_FALSE(hear_document("<html/>", "feed", index, Vocabulary(), remarks).has_value());
}

}  // namespace
}  // namespace hw::feeds
