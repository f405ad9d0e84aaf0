#include "src/feeds/plain_message.h"

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

constexpr std::string_view good =
    R"({"run": "r1", "sequence": 7, "alive_at": "2026-03-02T06:00:01Z", "observations": [)"
    R"({"at": "2026-03-02T06:00:00.5Z", "item": "exec", "value": "ACTIVE"},)"
    R"({"at": "2026-03-02T06:00:01Z", "item": "speed", "value": 1200.5},)"
    R"({"at": "2026-03-02T06:00:01Z", "item": "load", "value": null}]})";

std::string with(std::string_view from, std::string_view to) {
  std::string text(good);
  text.replace(text.find(from), from.size(), to);
  return text;
}

std::string refusal(const std::string& payload) {
  const auto read = parse_observations(payload);
  return read ? "" : read.error().message;
}

TEST(PlainMessage, ObservationsAreReadWithWordsNumbersAndNull) {
  const auto read = parse_observations(good);
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(read->run, "r1");
  EXPECT_EQ(read->sequence, 7U);
  EXPECT_EQ(print(read->alive_at), "2026-03-02T06:00:01Z");
  ASSERT_EQ(read->observations.size(), 3U);
  EXPECT_EQ(read->observations[0].value.as_string(), "ACTIVE");
  EXPECT_EQ(read->observations[1].value.to_number<double>(), 1200.5);
  EXPECT_TRUE(read->observations[2].value.is_null());
}

TEST(PlainMessage, WhatIsWrongIsRefusedWithItsField) {
  EXPECT_NE(refusal("{").find("line 1"), std::string::npos) << refusal("{");
  EXPECT_NE(refusal(with("\"run\"", "\"ran\"")).find("run"), std::string::npos);
  EXPECT_NE(refusal(with("\"run\"", "\"ran\": 1, \"run\"")).find("ran"), std::string::npos);
  EXPECT_NE(refusal(with("\"r1\"", "\"\"")).find("run:"), std::string::npos);
  EXPECT_NE(refusal(with("\"r1\"", '"' + std::string(101, 'r') + '"')).find("run:"), std::string::npos);
  EXPECT_NE(refusal(with("7", "0")).find("sequence:"), std::string::npos);
  EXPECT_NE(refusal(with("7", "-7")).find("sequence:"), std::string::npos);
  EXPECT_NE(refusal(with("06:00:00.5Z", "noon")).find("observations[0].at"), std::string::npos);
  EXPECT_NE(refusal(with("1200.5", "true")).find("observations[1].value"), std::string::npos);
  EXPECT_NE(refusal(with("1200.5", "[1]")).find("observations[1].value"), std::string::npos);
  EXPECT_NE(refusal(with("\"item\": \"load\",", "")).find("observations[2]"), std::string::npos);
}

TEST(PlainMessage, AModelHasTheWordsOfAProbe) {
  const auto read = parse_model(
      R"({"machine": "m1", "keeps": false, "items": [)"
      R"({"id": "exec", "category": "EVENT", "type": "EXECUTION", "component": "Path", "component_id": "p"},)"
      R"({"id": "speed", "category": "SAMPLE", "type": "ROTARY_VELOCITY", "sub_type": "ACTUAL",)"
      R"( "units": "REVOLUTION/MINUTE", "component": "Rotary", "component_id": "c", "name": "Srpm"}]})");
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(read->keeps, std::optional(false));
  const counters::MachineModel model = model_of(*read);
  EXPECT_EQ(model.name, "m1");
  ASSERT_EQ(model.items.size(), 2U);
  EXPECT_EQ(model.items[0].role, counters::Role::execution);
  EXPECT_EQ(model.items[1].role, counters::Role::spindle_speed);
  EXPECT_EQ(model.items[1].label(), "Srpm");
}

TEST(PlainMessage, AModelWithAnIdTwiceIsRefused) {
  const auto read = parse_model(R"({"machine": "m", "items": [{"id": "a", "category": "EVENT", "type": "EXECUTION"},)"
                                R"({"id": "a", "category": "EVENT", "type": "EXECUTION"}]})");
  ASSERT_FALSE(read);
  EXPECT_NE(read.error().message.find("items[1].id"), std::string::npos);
}

TEST(PlainMessage, APlaceIsPrintedAndReadAgain) {
  const SequencePlace place{"r1", 8};
  EXPECT_EQ(formats::print_json(place), R"({"run":"r1","next_sequence":8})");
  EXPECT_EQ(*parse_place(formats::print_json(place)), place);
  EXPECT_FALSE(parse_place(R"({"run":"r1","next_sequence":0})"));
  EXPECT_TRUE(parse_place(R"({"run":"","next_sequence":1})"));
}

TEST(PlainMessage, TopicsArePrintedAndReadAgain) {
  for (const auto kind : {MessageKind::model, MessageKind::observations, MessageKind::kept, MessageKind::wanted}) {
    const MessageTopic topic{"floor", "m1", kind};
    EXPECT_EQ(parse_topic(print(topic)), topic);
  }
  EXPECT_EQ(print(MessageTopic{"floor", "m1", MessageKind::kept}), "hourwright/floor/m1/kept");
  for (const char* other : {"", "hourwright/floor/kept", "hourwright/floor//kept", "hourwright//m1/kept",
                            "hourwright/floor/m1/x/kept", "hourwright/floor/m1/kepts", "MTConnect/Probe/m1"}) {
    EXPECT_FALSE(parse_topic(other)) << other;
  }
}

}  // namespace
}  // namespace hw::feeds
