#include "fuzz/lathe.h"

#include <cmath>

#include "libs/values/assert.h"
#include "src/feeds/device_model.h"
#include "tests/places/places.h"

namespace hw::fuzz {

const std::vector<counters::MachineModel>& lathe() {
  static const std::vector<counters::MachineModel> models = [] {
    auto read = feeds::read_devices_file(in_source("tests/recordings/feeds_devices.xml"));
    HW_ASSERT(read, "the lathe's description can be read");
    return std::move(read->machines);
  }();
  return models;
}

counters::LiveSettings counting_settings() {
  counters::LiveSettings settings;
  settings.counting.silence_limit = Duration::seconds(60);
  return settings;
}

counters::LiveCount counted(const counters::MachineModel& model, std::span<const counters::Observation> observations) {
  counters::LiveCount count(model, counting_settings(), count_begin);
  count.take(observations, count_end);
  return count;
}

void expect_no_more_than_time(const counters::LiveCount& count, Instant at) {
  const counters::Snapshot snapshot = count.snapshot(at);
  for (const counters::CounterTotal& total : snapshot.totals) {
    const counters::Tally& tally = total.tally;
    HW_ASSERT(tally.counted_ns() >= 0 && tally.false_ns() >= 0 && tally.unknown_ns() >= 0, "no time is negative");
    HW_ASSERT(tally.counted_ns() + tally.false_ns() + tally.unknown_ns() <= (at - count.begin()).ns,
              "a counter never runs faster than time");
    HW_ASSERT(tally.filled_ns >= 0 && tally.filled_ns <= tally.unknown_ns(), "only unknown time is filled");
    HW_ASSERT(std::isfinite(tally.amount), "an amount is a number");
  }
}

}  // namespace hw::fuzz
