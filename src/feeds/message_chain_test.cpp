#include "src/feeds/message_chain.h"

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

const Instant six = *parse_instant("2026-03-02T06:00:00Z");
const Instant later = *parse_instant("2026-03-02T12:00:00Z");  // the clock here

Instant second_of(std::int64_t second) { return six + Duration::seconds(second); }

ModelMessage model_said(bool keeps = true) {
  ModelMessage message{"m1", keeps, {}};
  message.items.push_back({"exec", "EVENT", "EXECUTION"});
  message.items.push_back({"note", "EVENT", "MESSAGE"});
  message.items.push_back({"power", "EVENT", "POWER_STATE"});
  return message;
}

ObservationMessage message_said(std::uint64_t sequence, std::int64_t second, std::string run = "a") {
  return {std::move(run), sequence, second_of(second + 1), {{second_of(second), "exec", boost::json::value("ACTIVE")}}};
}

class Messages : public ::testing::Test {
 protected:
  MessageChain chain{"m1", {}, {}};
  void begin(bool keeps = true) {
    ASSERT_TRUE(chain.hear(model_said(keeps), later));
    ASSERT_TRUE(chain.hear(message_said(1, 1), later));
  }
};

TEST_F(Messages, MessagesAreCountedInTheirSequence) {
  begin();
  const auto batch = chain.hear(message_said(2, 5), later);
  ASSERT_TRUE(batch);
  EXPECT_EQ(batch->position, (RunPosition{"a", 3, second_of(6)}));
  ASSERT_EQ(batch->observations.size(), 1U);
  EXPECT_EQ(batch->observations[0].at, second_of(5));
  EXPECT_EQ(batch->observations[0].value, 1.0);
  EXPECT_FALSE(batch->interruption);
  EXPECT_FALSE(chain.take_wanted(later));
}

TEST_F(Messages, ADuplicateIsDropped) {
  begin();
  EXPECT_FALSE(chain.hear(message_said(1, 1), later));
  EXPECT_FALSE(chain.take_wanted(later));
}

TEST_F(Messages, ALaterMessageIsLeftAsideAndTheMissingOneWantedOnceASecond) {
  begin();
  EXPECT_FALSE(chain.hear(message_said(3, 9), later));
  EXPECT_TRUE(chain.is_behind());
  EXPECT_EQ(chain.take_wanted(later), (SequencePlace{"a", 2}));
  EXPECT_FALSE(chain.hear(message_said(4, 12), later));
  EXPECT_FALSE(chain.take_wanted(later + Duration::millis(900)));
  EXPECT_EQ(chain.take_wanted(later + Duration::millis(1'000)), (SequencePlace{"a", 2}));
  EXPECT_TRUE(chain.hear(message_said(2, 5), later));
  EXPECT_FALSE(chain.is_behind());
  EXPECT_TRUE(chain.hear(message_said(3, 9), later));
}

TEST_F(Messages, WhatAPublisherLostThatKeepsNothingIsUnknownTime) {
  begin(false);
  const auto batch = chain.hear(message_said(4, 60), later);
  ASSERT_TRUE(batch);
  ASSERT_TRUE(batch->interruption);
  EXPECT_EQ(batch->interruption->from, second_of(2));
  EXPECT_EQ(batch->interruption->to, second_of(60));
  ASSERT_EQ(batch->observations.size(), 3U);  // both items that count unknown, then the value
  EXPECT_EQ(batch->observations[0].at, second_of(2));
  EXPECT_TRUE(counters::is_unknown(batch->observations[0].value));
  EXPECT_EQ(batch->observations[1].item, 2U);
  EXPECT_EQ(batch->observations[2].at, second_of(60));
  EXPECT_EQ(batch->position.next_sequence, 5U);
}

TEST_F(Messages, BetweenTwoRunsNothingIsKnown) {
  begin();
  const auto batch = chain.hear(message_said(1, 100, "b"), later);
  ASSERT_TRUE(batch);
  ASSERT_TRUE(batch->interruption);
  EXPECT_EQ(batch->interruption->from, second_of(2));
  EXPECT_EQ(batch->interruption->to, second_of(100));
  EXPECT_EQ(batch->position, (RunPosition{"b", 2, second_of(101)}));
}

TEST_F(Messages, ANewRunThatWasNotHeardFromItsBeginningIsWantedFromThere) {
  begin();
  EXPECT_FALSE(chain.hear(message_said(5, 100, "b"), later));
  EXPECT_EQ(chain.take_wanted(later), (SequencePlace{"b", 1}));
  EXPECT_EQ(chain.position().run, "a");
}

TEST_F(Messages, AnOlderRunIsAnOldMessage) {
  begin();
  ASSERT_TRUE(chain.hear(message_said(1, 100, "b"), later));
  EXPECT_FALSE(chain.hear(message_said(1, 1), later));
  EXPECT_FALSE(chain.hear(message_said(2, 5), later));
  EXPECT_FALSE(chain.take_wanted(later));
  EXPECT_TRUE(chain.hear(message_said(2, 105, "b"), later));
}

TEST_F(Messages, BeforeTheModelNothingIsCountedAndNothingLost) {
  EXPECT_FALSE(chain.hear(message_said(1, 1), later));
  EXPECT_FALSE(chain.take_wanted(later));
  ASSERT_TRUE(chain.hear(model_said(), later));
  EXPECT_EQ(chain.take_wanted(later), (SequencePlace{"a", 1}));
  EXPECT_TRUE(chain.hear(message_said(1, 1), later));
}

TEST_F(Messages, GoesOnFromWhatIsStored) {
  begin();
  MessageChain again{"m1", {}, {chain.position(), model_of(model_said())}};
  EXPECT_FALSE(again.hear(model_said(), later));
  EXPECT_FALSE(again.hear(message_said(1, 1), later));
  EXPECT_TRUE(again.hear(message_said(2, 5), later));
}

TEST_F(Messages, ValuesAreTheVocabularysAndOddOnesAreNoted) {
  begin();
  ObservationMessage odd = message_said(2, 5);
  odd.observations = {
      {second_of(5), "exec", boost::json::value("JUGGLING")}, {second_of(5), "exec", boost::json::value(nullptr)},
      {second_of(5), "exec", boost::json::value(1)},          {second_of(5), "power", boost::json::value("ON")},
      {second_of(5), "what", boost::json::value(1)},          {second_of(5), "note", boost::json::value("hello")}};
  const auto batch = chain.hear(odd, later);
  ASSERT_TRUE(batch);
  ASSERT_EQ(batch->observations.size(), 4U);
  EXPECT_LT(batch->observations[0].value, 0);
  EXPECT_TRUE(counters::is_unknown(batch->observations[1].value));
  EXPECT_LT(batch->observations[2].value, 0);  // a word that is none
  EXPECT_EQ(batch->observations[3].value, 1);
  EXPECT_EQ(batch->notes.size(), 3U);
}

TEST_F(Messages, NothingIsStampedFarAheadOfTheClockHere) {
  begin();
  ObservationMessage ahead = message_said(2, 0);
  ahead.alive_at = later + Duration::hours(2);
  ahead.observations = {{later + Duration::seconds(900), "exec", boost::json::value("READY")},
                        {later + Duration::seconds(901), "exec", boost::json::value("ACTIVE")}};
  const auto batch = chain.hear(ahead, later);
  ASSERT_TRUE(batch);
  EXPECT_EQ(batch->observations[0].at, later + Duration::seconds(900));
  EXPECT_EQ(batch->observations[1].at, later);
  EXPECT_EQ(batch->position.alive_at, later);
  EXPECT_EQ(batch->notes.size(), 1U);
}

}  // namespace
}  // namespace hw::feeds
