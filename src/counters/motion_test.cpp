#include "src/counters/motion.h"

#include <gtest/gtest.h>

#include "src/counters/scene_test.h"

namespace hw::counters {
namespace {

struct Handed {
  std::vector<Observation> all;
  MotionFinder::Next next = [this](Instant at, std::span<const Observation> changes) {
    for (const Observation& change : changes) {
      EXPECT_EQ(change.at, at);
      all.push_back(change);
    }
  };
  std::vector<std::pair<double, double>> of(std::uint32_t item) const {
    std::vector<std::pair<double, double>> times;
    for (const Observation& one : all) {
      if (one.item == item) times.emplace_back(static_cast<double>(one.at.ns) / 1e9, one.value);
    }
    return times;
  }
};

using Times = std::vector<std::pair<double, double>>;

const std::vector<Item> items = {item_of("X", Role::position), item_of("exec", Role::execution)};

void settle(MotionFinder& motion, Handed& handed, const Observation& one) {
  motion.settle(one.at, std::span(&one, 1), handed.next);
}

TEST(MotionFinder, ADifferenceIsMotionUpToTwoSecondsBefore) {
  MotionFinder motion(items);
  Handed handed;
  settle(motion, handed, seen(0, 0, 5));
  settle(motion, handed, seen(10, 0, 6));
  settle(motion, handed, seen(11, 0, 7));
  motion.drain(handed.next);
  EXPECT_EQ(handed.of(0), Times({{0, 0}, {8, 1}, {10, 0}, {10, 1}, {11, 0}}));
}

TEST(MotionFinder, OthersKeepTheirPlaceInTime) {
  MotionFinder motion(items);
  Handed handed;
  settle(motion, handed, seen(0, 0, 5));
  settle(motion, handed, seen(9, 1, 1));
  settle(motion, handed, seen(10, 0, 6));
  EXPECT_TRUE(handed.of(1).empty()) << "a motion before it may still be found";
  settle(motion, handed, seen(20, 1, 0));
  ASSERT_EQ(handed.all.size(), 4U);
  EXPECT_EQ(handed.all[1].item, 0U) << "the motion from 8 on";
  EXPECT_EQ(handed.all[2].item, 1U) << "what was seen at 9";
}

TEST(MotionFinder, TheDeadBandIsOfDecimals) {
  MotionFinder motion(items);
  Handed handed;
  double at = 0;
  for (const double position : {100.0, 100.001, 100.0, 99.999, 100.0001})
    settle(motion, handed, seen(at += 10, 0, position));
  motion.drain(handed.next);
  EXPECT_EQ(handed.of(0).size(), 6U) << "only the last step is more than 0.001";
}

}  // namespace
}  // namespace hw::counters
