#pragma once
// A time of day as people write it in files.

#include <string_view>

#include "libs/values/result.h"

namespace hw::catalogue {

// "06:00" as minutes from midnight, 0 to 1439. Refuses (bad_input) what is no such time.
Result<int> parse_clock(std::string_view text);

}  // namespace hw::catalogue
