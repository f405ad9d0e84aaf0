#pragma once
// A machine's model as text, for its row in the database.

#include <string>
#include <string_view>

#include "libs/values/result.h"
#include "src/counters/machine_model.h"

namespace hw::service {

std::string print_model(const counters::MachineModel& model);
Result<counters::MachineModel> parse_model(std::string_view text);

}  // namespace hw::service
