#include "src/feeds/document_chain.h"

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

// A document with observations of item 0 (and 1 to 2 where it has coordinates) of machine 0.
struct Said {
  std::uint64_t instance = 1, next = 0;
  std::vector<Arrival> arrivals;
};

Arrival arrival(std::uint64_t sequence, std::uint32_t item = 0, std::uint32_t machine = 0) {
  return {Instant{static_cast<std::int64_t>(sequence) * 1'000'000'000}, sequence, 1.0, machine, item, false};
}

class DocumentChainTest : public testing::Test {
 protected:
  void say(const Said& said) {
    StreamsHeader header;
    header.instance_id = said.instance;
    header.next_sequence = said.next;
    ASSERT_TRUE(chain.header(header).has_value());
    StreamsTally tally;
    tally.seen.resize(2);
    for (const Arrival& one : said.arrivals) {
      chain.observation(one);
      ++tally.observations;
      tally.sequence_min = tally.sequence_min == 0 ? one.sequence : std::min(tally.sequence_min, one.sequence);
      tally.sequence_max = std::max(tally.sequence_max, one.sequence);
    }
    chain.commit("doc.xml", tally);
  }
  Notes notes;
  Remarks remarks{{}, notes};
  DocumentChain chain{none_found, remarks};
  std::vector<MachineRun> runs{2};
};

TEST_F(DocumentChainTest, CoordinatesOfOneObservationAreNoRepeats) {
  say({.next = 3, .arrivals = {arrival(2, 0), arrival(2, 1), arrival(2, 2), arrival(1, 0)}});
  say({.next = 3, .arrivals = {arrival(2, 0), arrival(2, 1), arrival(2, 2)}});
  chain.finish(runs);
  EXPECT_EQ(runs[0].observations.size(), 4U);
}

TEST_F(DocumentChainTest, ObservationsWithoutSequenceAllStay) {
  say({.next = 1, .arrivals = {arrival(0), arrival(0)}});
  say({.next = 1, .arrivals = {arrival(0)}});
  chain.finish(runs);
  EXPECT_EQ(runs[0].observations.size(), 3U);
}

TEST_F(DocumentChainTest, AgentsOfDifferentMachinesAreNoRestartsOfEachOther) {
  say({.instance = 1, .next = 2, .arrivals = {arrival(1, 0, 0)}});
  say({.instance = 2, .next = 2, .arrivals = {arrival(1, 0, 1)}});
  chain.finish(runs);
  EXPECT_TRUE(runs[0].restarts.empty());
  EXPECT_TRUE(runs[1].restarts.empty());
}

TEST_F(DocumentChainTest, DiscardedDocumentLeavesNothing) {
  ASSERT_TRUE(chain.header({}).has_value());
  chain.observation(arrival(1));
  chain.discard();
  chain.finish(runs);
  EXPECT_TRUE(runs[0].observations.empty());
  EXPECT_TRUE(chain.empty());
}

TEST_F(DocumentChainTest, SurvivesAHundredThousandInstances) {
  for (std::uint64_t n = 1; n <= 100'000; ++n) say({.instance = n, .next = 2, .arrivals = {arrival(1)}});
  chain.finish(runs);
  EXPECT_EQ(runs[0].restarts.size(), 99'999U);
}

}  // namespace
}  // namespace hw::feeds
