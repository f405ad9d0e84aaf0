#pragma once
// Observations as bytes, for a store that is only appended to: about 5 bytes each.
//
//   payload = version unit count *observation checksum
//   observation = item time value          (state_archive.h says how numbers, and reals, are written)
//
// unit: 1, 1000, 1000000 or 1000000000 ns, the largest in which all times are whole; time: in units, the difference to
// the observation before. checksum: of all before it, 8 bytes.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "libs/values/result.h"
#include "src/counters/observation.h"

namespace hw::counters {

// Order is kept.
std::string pack(std::span<const Observation> observations);

// Refuses (corrupt) what pack() did not write.
Result<std::vector<Observation>> unpack(std::string_view payload);

}  // namespace hw::counters
