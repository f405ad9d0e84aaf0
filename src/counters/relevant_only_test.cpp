#include "src/counters/relevant_only.h"

#include <gtest/gtest.h>

#include "src/counters/naive_test.h"
#include "src/counters/packed.h"

namespace hw::counters {
namespace {

TEST(RelevantOnly, Property_ASavedOneGoesOnAsIfNothingHadBeen) {
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    SCOPED_TRACE(seed);
    naive::Chance chance(seed);
    const MachineModel model = chance.machine();
    RelevantOnly whole(model, {}), halted(model, {});
    std::vector<Observation> kept, kept_halted;
    for (const Observation& one : chance.arrivals(model, 300)) {
      whole.pass(one, kept);
      if (chance.happens(0.1)) {
        RelevantOnly restored(model, {});
        ASSERT_TRUE(restored.restore(halted.save()));
        halted = restored;
      }
      halted.pass(one, kept_halted);
    }
    EXPECT_EQ(pack(kept_halted), pack(kept));
  }
}

TEST(RelevantOnly, ARecordThatIsCutOffOrTooLongIsNone) {
  const MachineModel model = scene_machine();
  const std::string record = RelevantOnly(model, {}).save();
  EXPECT_TRUE(RelevantOnly(model, {}).restore(record));
  EXPECT_FALSE(RelevantOnly(model, {}).restore(record.substr(1)));
  EXPECT_FALSE(RelevantOnly(model, {}).restore(record + "x"));
}

}  // namespace
}  // namespace hw::counters
