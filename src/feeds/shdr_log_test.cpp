#include "src/feeds/shdr_log.h"

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

class ShdrLogTest : public testing::Test {
 protected:
  ShdrLogTest() {
    counters::MachineModel mill;
    mill.name = "mill";
    mill.items.resize(1);
    mill.items[0].id = "ex";
    mill.items[0].role = counters::Role::execution;
    machines = {mill};
  }
  Result<void> read(ShdrLog& log, std::string_view text) {
    const auto source = formats::memory_source(text, "day.shdr");
    return log.read(*source, words);
  }

  std::vector<counters::MachineModel> machines;
  Notes notes;
  Vocabulary words;
};

TEST_F(ShdrLogTest, CountsBadLinesAndTellsTheFirstFive) {
  const ItemIndex index(machines);
  Remarks remarks(machines, notes);
  ShdrLog log(index, 0, none_found, remarks);
  std::string text = "2026-03-02T05:00:00Z|ex|ACTIVE\n";
  for (int n = 0; n < 9; ++n) text += ">>>>>>> theirs\n";
  ASSERT_TRUE(read(log, text).has_value());
  EXPECT_EQ(log.bad_lines(), 9U);
  EXPECT_EQ(log.observations(), 1U);
  EXPECT_EQ(print(log.began_at().value()), "2026-03-02T05:00:00Z");
  const auto told = notes.take();
  ASSERT_EQ(told.size(), 5U);
  EXPECT_EQ(told[0].text, "day.shdr, line 2: no time that can be read");
}

TEST_F(ShdrLogTest, AddsItsObservationsBehindThoseThatAreThere) {
  const ItemIndex index(machines);
  Remarks remarks(machines, notes);
  ShdrLog log(index, 0, none_found, remarks);
  ASSERT_TRUE(read(log, "2026-03-02T05:00:00Z|ex|ACTIVE|ex|READY\n").has_value());
  std::vector<MachineRun> runs(1);
  runs[0].observations.push_back({});
  log.add_to(runs);
  EXPECT_EQ(runs[0].observations.size(), 3U);
}

TEST_F(ShdrLogTest, SurvivesZerosAfterAPowerLoss) {
  const ItemIndex index(machines);
  Remarks remarks(machines, notes);
  ShdrLog log(index, 0, none_found, remarks);
  const std::string text =
      "2026-03-02T05:00:00Z|ex|ACTIVE\n" + std::string(5 << 20, '\0') + "\n2026-03-02T06:00:00Z|ex|READY\n";
  ASSERT_TRUE(read(log, text).has_value());
  EXPECT_EQ(log.bad_lines(), 1U);
  EXPECT_EQ(log.observations(), 2U);
}

}  // namespace
}  // namespace hw::feeds
