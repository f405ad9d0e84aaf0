#include <gtest/gtest.h>

#include "src/counters/live_count.h"
#include "src/counters/scene_test.h"

namespace hw::counters {
namespace {

LiveCount small_machine() {
  LiveCount live(scene_machine(), {}, Instant{0});
  const std::vector<Observation> arrivals = {seen(-5000, exec, 1), seen(-5000, timer, 1000), seen(20, exec, gone),
                                             seen(20, exec, 0), seen(30, speed1, 5)};
  EXPECT_FALSE(live.take(arrivals, at_s(30)));
  return live;
}

TEST(LiveArchive, ARecordOfASmallMachineTakesLessThanAKilobyte) { EXPECT_LT(small_machine().save().size(), 1000U); }

TEST(LiveArchive, ADamagedRecordIsRefused) {
  const std::string record = small_machine().save();
  for (std::size_t n = 0; n < record.size(); ++n) {
    std::string damaged = record;
    damaged[n] = static_cast<char>(damaged[n] ^ 0x10);
    ASSERT_FALSE(LiveCount::restore(scene_machine(), {}, damaged)) << "byte " << n;
    ASSERT_FALSE(LiveCount::restore(scene_machine(), {}, record.substr(0, n))) << n << " bytes";
  }
  EXPECT_TRUE(LiveCount::restore(scene_machine(), {}, record));
}

TEST(LiveArchive, ARecordOfAnotherModelOrOtherSettingsIsAConflict) {
  const std::string record = small_machine().save();
  MachineModel other = scene_machine();
  other.items[exec].id = "exec_2";
  EXPECT_EQ(LiveCount::restore(other, {}, record).error().code, ErrorCode::conflict);
  LiveSettings settings;
  settings.counting.load_above_percent = 5;
  EXPECT_EQ(LiveCount::restore(scene_machine(), settings, record).error().code, ErrorCode::conflict);
}

}  // namespace
}  // namespace hw::counters
