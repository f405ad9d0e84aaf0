// The parts of a machine's counting that need no store; tests/shop has the rest.

#include "src/service/machine_count.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

constexpr Instant begin{1'772'431'200'000'000'000};  // 2026-03-02T06:00:00Z

Instant after(int minutes) { return begin + Duration::seconds(60 * minutes); }

counters::Item item_of(std::string id, counters::Role role) {
  counters::Item item;
  item.id = std::move(id);
  item.role = role;
  return item;
}

counters::MachineModel small_model() {
  counters::MachineModel model;
  model.items = {item_of("avail", counters::Role::availability), item_of("exec", counters::Role::execution),
                 item_of("speed", counters::Role::spindle_speed), item_of("feed", counters::Role::path_feed)};
  return model;
}

MachineCount counting() {
  MachineCount count;
  count.set_model(small_model(), begin);
  return count;
}

std::string doing_after(std::initializer_list<double> values) {
  MachineCount count = counting();
  count.alive_until(after(1));
  std::uint32_t item = 0;
  for (double value : values) count.take(std::vector{counters::Observation{begin, item++, value}}, after(1));
  return count.at(after(1)).doing.state;
}

TEST(MachineCount, WithoutAModelNothingIsCountedOrStored) {
  MachineCount count;
  count.take(std::vector{counters::Observation{begin, 0, 1}}, begin);
  count.alive_until(after(9));
  EXPECT_TRUE(count.at(after(9)).counters.empty());
  EXPECT_EQ(count.at(after(9)).doing.state, "not known");
  EXPECT_FALSE(count.unsaved("m1"));
  EXPECT_FALSE(count.counting_since());
}

TEST(MachineCount, SaysTheFurthestThatTheMachineGoes) {
  EXPECT_EQ(doing_after({1, 1, 3000, 20}), "cutting");
  EXPECT_EQ(doing_after({1, 1, 3000, 0}), "running");
  EXPECT_EQ(doing_after({1, 0, 3000, 0}), "spindle turning");
  EXPECT_EQ(doing_after({1, 0, 0, 0}), "standing");
  EXPECT_EQ(doing_after({0, 0, 0, 0}), "off");
  EXPECT_EQ(doing_after({}), "not known");
}

TEST(MachineCount, WhatWasOfferedIsOfferedAgainUntilItIsSaved) {
  MachineCount count = counting();
  const auto first = count.unsaved("m1");
  ASSERT_TRUE(first);
  ASSERT_TRUE(count.unsaved("m1"));
  count.saved(*count.unsaved("m1"));
  EXPECT_FALSE(count.unsaved("m1"));
}

TEST(MachineCount, WhatComesBetweenTheOfferAndTheSavingIsNotTakenForSaved) {
  MachineCount count = counting();
  const auto offered = count.unsaved("m1");
  count.take(std::vector{counters::Observation{after(1), 1, 1}}, after(1));
  count.saved(*offered);
  const auto rest = count.unsaved("m1");
  ASSERT_TRUE(rest);
  EXPECT_EQ(rest->log.size(), 1u);
}

TEST(MachineCount, ADamagedRecordIsRefused) {
  MachineCount count = counting();
  auto record = count.unsaved("m1")->record;
  EXPECT_TRUE(MachineCount{}.restore(record));
  record.state.back() = static_cast<char>(record.state.back() ^ 1);
  EXPECT_EQ(MachineCount{}.restore(record).error().code, ErrorCode::corrupt);
  record.state = "nothing";
  EXPECT_FALSE(MachineCount{}.restore(record));
}

}  // namespace
}  // namespace hw::service
