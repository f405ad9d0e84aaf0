#include "src/access/tries.h"

#include <gtest/gtest.h>

namespace hw::access {
namespace {

const Instant begin = Instant::from_millis(1'700'000'000'000);

TEST(Tries, TheWaitDoublesFromTheFourthWrongTryToItsBound) {
  Tries tries({3, Duration::seconds(1), Duration::seconds(15 * 60)});
  const std::int64_t waits[] = {0, 0, 0, 1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900, 900};
  Instant now = begin;
  for (const std::int64_t wait : waits) {
    tries.failed("Ada", now);
    EXPECT_EQ(tries.wait_left("Ada", now), Duration::seconds(wait));
    now = now + Duration::seconds(wait);
    EXPECT_EQ(tries.wait_left("Ada", now), Duration{0}) << "nobody is locked out for good";
  }
  for (int i = 0; i < 1000; ++i) tries.failed("Ada", now);
  EXPECT_EQ(tries.wait_left("Ada", now), Duration::seconds(900));
}

TEST(Tries, ARightTryEndsTheWaitAndAnotherPlaceHasNone) {
  Tries tries({});
  for (int i = 0; i < 9; ++i) tries.failed("Ada", begin);
  EXPECT_EQ(tries.wait_left("Bea", begin), Duration{0});
  tries.succeeded("Ada");
  EXPECT_EQ(tries.wait_left("Ada", begin), Duration{0});
  EXPECT_EQ(tries.failures("Ada"), 0);
}

TEST(Tries, AClockThatIsSetBackMakesNobodyWaitLonger) {
  Tries tries({});
  for (int i = 0; i < 6; ++i) tries.failed("Ada", begin);
  const Instant back = begin - Duration::hours(24 * 365);
  EXPECT_EQ(tries.wait_left("Ada", back), Duration::seconds(4));
  EXPECT_EQ(tries.wait_left("Ada", back + Duration::seconds(4)), Duration{0});
}

TEST(Tries, SoManyPlacesAreKeptThatMemoryHasABound) {
  Tries tries({});
  for (int i = 0; i < 4; ++i) tries.failed("quiet", begin);
  for (int i = 0; i < 10'000; ++i) tries.failed("name " + std::to_string(i), begin + Duration::seconds(i + 1));
  EXPECT_EQ(tries.failures("quiet"), 0) << "the one that was quiet for longest is forgotten";
  EXPECT_EQ(tries.failures("name 9999"), 1);
}

}  // namespace
}  // namespace hw::access
