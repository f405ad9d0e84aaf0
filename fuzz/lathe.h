#pragma once
// The lathe of tests/recordings, whose documents the inputs speak of; and what has to hold of every count of it.

#include <span>
#include <vector>

#include "src/counters/live_count.h"
#include "src/counters/machine_model.h"
#include "src/counters/observation.h"

namespace hw::fuzz {

// One model, from feeds_devices.xml; read once.
const std::vector<counters::MachineModel>& lathe();

// As the server counts a machine of a UTC plant.
counters::LiveSettings counting_settings();
// Counts two days, from the recording's morning on.
counters::LiveCount counted(const counters::MachineModel& model, std::span<const counters::Observation> observations);
inline constexpr Instant count_begin{1'463'979'600'000'000'000};  // 2016-05-23T05:00:00Z
inline constexpr Instant count_end = count_begin + Duration::hours(48);

// No counter runs faster than time, none has a part that is less than nothing, every amount is a number.
void expect_no_more_than_time(const counters::LiveCount& count, Instant at);

}  // namespace hw::fuzz
