#pragma once
// Fills that fill nothing, which nobody would see otherwise.

#include <functional>
#include <string>
#include <string_view>

#include "src/service/open_shop.h"

namespace hw::service {

// Tells of each counter of the machine that is to be filled by an item that its model lacks.
void tell_idle_fills(const OpenMachine& machine, const counters::MachineModel& model, const std::string& feed,
                     const std::function<void(std::string_view)>& report);

}  // namespace hw::service
