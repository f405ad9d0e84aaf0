#include "src/terminal/new_shop_told.h"

#include <fmt/format.h>

namespace hw::terminal {

std::string told_of_new_shop(const service::NewShop& shop) {
  std::string text = fmt::format("{}: {} shifts, {} closed days, {} people, {} cells; nothing has been made yet\n",
                                 shop.shop.plant, shop.shop.calendar.shifts.size(), shop.shop.calendar.closed.size(),
                                 shop.shop.people.size(), shop.shop.cells.size());
  for (const service::MachineRecord& machine : shop.machines) {
    std::string feed = "no feed: its hours are read from its display";
    for (const auto& one : shop.shop.feeds) {
      if (machine.feed == one.key) feed = fmt::format("{} at {}", machine.device, one.url);
    }
    text += fmt::format("  {:<8} {:<28} {:<20} {:>3} tasks; {}\n", machine.machine.key, machine.machine.name,
                        machine.machine.kind, machine.tasks.size(), feed);
  }
  return text;
}

}  // namespace hw::terminal
