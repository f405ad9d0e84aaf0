#include "src/service/idle_fills.h"

#include <algorithm>

#include <fmt/format.h>

namespace hw::service {

void tell_idle_fills(const OpenMachine& machine, const counters::MachineModel& model, const std::string& feed,
                     const std::function<void(std::string_view)>& report) {
  for (const auto& [counter, item] : machine.record.machine.fills) {
    const auto is_it = [&id = item](const counters::Item& one) { return one.id == id; };
    if (std::any_of(model.items.begin(), model.items.end(), is_it)) continue;
    report(fmt::format("feed {}: {}: {} is to be filled by \"{}\", which is no data item of the machine", feed,
                       machine.record.machine.key, counter, item));
  }
}

}  // namespace hw::service
