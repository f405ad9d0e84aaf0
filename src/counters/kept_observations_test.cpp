#include <gtest/gtest.h>

#include "src/counters/count_run.h"
#include "src/counters/naive_test.h"
#include "src/counters/packed.h"
#include "src/counters/relevant_only.h"

namespace hw::counters {
namespace {

std::vector<Observation> kept_of(const MachineModel& model, const std::vector<Observation>& arrivals,
                                 const CountSettings& settings = {}) {
  RelevantOnly relevant(model, settings);
  std::vector<Observation> kept;
  for (const Observation& arrival : arrivals) relevant.pass(arrival, kept);
  return kept;
}

TEST(RelevantOnly, Property_HoursFromWhatIsKeptAreTheHoursFromAll) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE(seed);
    naive::Chance chance(seed);
    const MachineModel model = chance.machine();
    const std::vector<Observation> all = chance.arrivals(model, 400);
    CountSettings settings;
    if (chance.happens(0.5)) settings.load_above_percent = 2;
    const std::vector<Observation> kept = kept_of(model, all, settings);
    const Window window{at_s(10), all.back().at};
    const auto from_all = count_run(model, std::vector<Source>{all}, window, settings);
    const auto from_kept = count_run(model, std::vector<Source>{kept}, window, settings);
    ASSERT_TRUE(from_all && from_kept);
    ASSERT_EQ(from_kept->counters, from_all->counters);
  }
}

TEST(RelevantOnly, PassesOverWhatChangesNoCounter) {
  const std::vector<Observation> arrivals = {seen(0, exec, -1),   seen(1, exec, -2),   seen(2, exec, 1),
                                             seen(3, speed1, 5),  seen(4, speed1, 5),  seen(5, load1, 9),
                                             seen(6, timer, 1),   seen(7, timer, 2),   seen(8, timer, 3),
                                             seen(17, timer, 12), seen(18, timer, 13), seen(19, timer, 0)};
  std::vector<double> times;
  for (const Observation& one : kept_of(scene_machine(), arrivals))
    times.push_back(static_cast<double>(one.at.ns) / 1e9);
  EXPECT_EQ(times, std::vector<double>({0, 2, 3, 6, 17, 18, 19}));
}

TEST(RelevantOnly, BeforeABreakWhatWasPassedOverLastCounts) {
  RelevantOnly relevant(scene_machine(), {});
  std::vector<Observation> kept;
  for (const Observation& one : {seen(0, timer, 1), seen(5, timer, 6)}) relevant.pass(one, kept);
  EXPECT_EQ(kept.size(), 1U);
  relevant.flush(kept);
  ASSERT_EQ(kept.size(), 2U);
  EXPECT_EQ(kept[1].value, 6);
}

TEST(Packed, Property_UnpackedIsWhatWasPacked) {
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    SCOPED_TRACE(seed);
    naive::Chance chance(seed);
    const MachineModel model = chance.machine();
    std::vector<Observation> all = chance.arrivals(model, chance.below(200));
    if (chance.happens(0.5)) {
      for (Observation& one : all)
        one = {{one.at.ns + static_cast<std::int64_t>(chance.below(1000))}, one.item, one.value / 7};
    }
    const auto back = unpack(pack(all));
    ASSERT_TRUE(back) << back.error().message;
    ASSERT_EQ(back->size(), all.size());
    for (std::size_t n = 0; n < all.size(); ++n) {
      ASSERT_EQ((*back)[n].at, all[n].at);
      ASSERT_EQ((*back)[n].item, all[n].item);
      ASSERT_TRUE((*back)[n].value == all[n].value || (is_unknown(all[n].value) && is_unknown((*back)[n].value)));
    }
  }
}

TEST(Packed, TheEndsOfTimeArePackedToo) {
  const std::vector<Observation> ends = {
      {{INT64_MIN}, 0, 1}, {{INT64_MAX}, 4'000'000'000, -1e300}, {{INT64_MIN}, 1, 0}};
  const auto back = unpack(pack(ends));
  ASSERT_TRUE(back);
  for (std::size_t n = 0; n < ends.size(); ++n) EXPECT_EQ((*back)[n].at, ends[n].at);
}

TEST(Packed, DamageIsRefused) {
  const std::string payload = pack(std::vector<Observation>{seen(1, exec, 1), seen(2, speed1, 0.25)});
  for (std::size_t n = 0; n < payload.size(); ++n) {
    std::string damaged = payload;
    damaged[n] = static_cast<char>(damaged[n] ^ 1);
    EXPECT_FALSE(unpack(damaged)) << n;
    EXPECT_FALSE(unpack(payload.substr(0, n))) << n;
  }
}

}  // namespace
}  // namespace hw::counters
