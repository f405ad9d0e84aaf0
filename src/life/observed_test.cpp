#include "src/life/observed.h"

#include <gtest/gtest.h>

#include "src/life/log_lives.h"

namespace hw::life {
namespace {

TEST(Observed, SoundLivesHaveNoFault) {
  for (const Observed& life : {Observed{5, 5}, Observed{5}, Observed{0, 5}, Observed{3, 5, 1000}, Observed{5, 5, 1, 4},
                               Observed{4, 5, 1, 4}}) {
    EXPECT_FALSE(fault_of(life)) << fault_of(life)->says;
  }
}

TEST(Observed, AFaultNamesItsField) {
  using enum ObservedField;
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const std::pair<Observed, ObservedField> faults[] = {
      {{-1, 5}, lower},          {{nan, 5}, lower},      {{1e101}, lower},        {{0}, lower},
      {{5, 4}, upper},           {{5, nan}, upper},      {{0, 0}, upper},         {{5, 5, 0}, count},
      {{5, 5, 1.5}, count},      {{5, 5, -2}, count},    {{5, 5, nan}, count},    {{5, 5, 1, 5}, entry},
      {{5, never, 1, 6}, entry}, {{5, 5, 1, -1}, entry}, {{5, 5, 1, nan}, entry}, {{3, 5, 1, 4}, entry},
  };
  for (const auto& [life, field] : faults) {
    const auto found = fault_of(life);
    ASSERT_TRUE(found) << life.lower << " " << life.upper << " " << life.count << " " << life.entry;
    EXPECT_EQ(found->field, field) << found->says;
  }
}

TEST(Observed, AreCountedWithTheirCounts) {
  const Observed lives[] = {{5, 5, 2}, {7, never, 3}, {0, 4, 5}, {2, 9}};
  const LifeCounts counts = count_lives(lives);
  EXPECT_EQ(counts.failures, 8);
  EXPECT_EQ(counts.exact, 2);
  EXPECT_EQ(counts.suspensions, 3);
}

TEST(LogLives, AreSortedByWhatTheyContribute) {
  const Observed lives[] = {{5, 5, 2}, {7, never, 3, 1}, {0, 4, 5}, {2, 9}};
  LogLives logs;
  logs.take(lives);
  EXPECT_EQ(logs.exact.size(), 1u);
  EXPECT_EQ(logs.gaps.size(), 2u);
  ASSERT_EQ(logs.survived.size(), 2u);  // the one taken out, and its entry
  EXPECT_EQ(logs.survived[1].weight, -3);
  logs.take({lives, 1});
  EXPECT_TRUE(logs.gaps.empty());
}

}  // namespace
}  // namespace hw::life
