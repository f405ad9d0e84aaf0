#pragma once
// What accounts, devices and programs are called.

#include <string_view>

#include "libs/values/result.h"

namespace hw::service {

// Refuses (bad_input) what is blank, has more than 60 characters, control characters, or blanks at either end. `field`
// is the one of the contract; `means` says what belongs there: "as it is to stand in the logbook".
Result<void> check_title(std::string_view field, std::string_view title, std::string_view means);

}  // namespace hw::service
