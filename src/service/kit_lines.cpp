#include "src/service/kit_lines.h"

#include <algorithm>

#include "src/service/entry_making.h"
#include "src/service/kind_services.h"
#include "src/service/stop_plan.h"

namespace hw::service {
namespace {

const catalogue::Kit* laid_down(const Stores& stores, const catalogue::Machine& machine, const std::string& task) {
  const catalogue::Kit* of_kind = nullptr;
  for (const catalogue::Kit& kit : stores.kits()) {
    if (kit.task != task) continue;
    if (kit.machine == machine.key) return &kit;
    if (kit.kind == machine.kind) of_kind = &kit;
  }
  return of_kind;
}

NeededLine line_of(const Stores& stores, const catalogue::KitLine& line) {
  const auto there = stores.parts().find(line.part);
  if (there == stores.parts().end()) return {line.part, line.part, line.quantity, ""};
  return {there->second.part.title, line.part, line.quantity, there->second.part.unit};
}

NeededLine line_of(const Stores& stores, const catalogue::Part& part) {
  const PartRecord* there = stores.part_called(part.name);
  if (there == nullptr || there->part.unit != part.unit) return {part.name, {}, part.quantity, part.unit};
  return {there->part.title, there->part.number, part.quantity, part.unit};
}

bool is_same_thing(const NeededLine& one, const NeededLine& other) {
  return one.part == other.part && one.name == other.name && one.unit == other.unit;
}

void add_lines(std::vector<NeededLine>& all, const std::vector<NeededLine>& lines) {
  for (const NeededLine& line : lines) {
    auto there = std::find_if(all.begin(), all.end(), [&](const auto& one) { return is_same_thing(one, line); });
    if (there == all.end()) {
      all.push_back(line);
      continue;
    }
    there->quantity += line.quantity;
    there->tasks.insert(there->tasks.end(), line.tasks.begin(), line.tasks.end());
  }
}

}  // namespace

std::vector<NeededLine> kit_of(const OpenShop& shop, const catalogue::Machine& machine, const catalogue::Task& task) {
  std::vector<NeededLine> lines;
  if (const catalogue::Kit* kit = laid_down(shop.stores(), machine, task.key)) {
    for (const auto& line : kit->lines) lines.push_back(line_of(shop.stores(), line));
  } else {
    for (const auto& part : task.parts) lines.push_back(line_of(shop.stores(), part));
  }
  for (NeededLine& line : lines) line.tasks = {task.key};
  return lines;
}

std::vector<NeededLine> kit_of_service(const OpenShop& shop, std::string_view kind, std::string_view service) {
  std::vector<NeededLine> lines;
  for (const catalogue::Kit& kit : shop.stores().kits()) {
    if (kit.kind != kind || kit.service != service) continue;
    for (const auto& line : kit.lines) lines.push_back(line_of(shop.stores(), line));
  }
  return lines;
}

std::vector<NeededLine> kit_of(const OpenShop& shop, const OpenMachine& machine, const Stop& stop) {
  std::vector<NeededLine> all;
  const auto planned = present_tasks(machine, stop.plan);
  for (const PlannedTask& task : planned) {
    const auto record = find_task(machine, task.task);
    if (record) add_lines(all, kit_of(shop, machine.record.machine, (*record)->task));
  }
  if (const auto* service = service_in(shop, machine.record, planned)) {
    add_lines(all, kit_of_service(shop, machine.record.machine.kind, service->key));
  }
  return all;
}

std::map<std::string, std::string> nameless_parts(const OpenShop& shop) {
  std::map<std::string, std::string> names;
  for (const auto& machine : shop.machines()) {
    for (const TaskRecord& record : machine->record.tasks) {
      if (record.retired_at) continue;
      for (const NeededLine& line : kit_of(shop, machine->record.machine, record.task)) {
        if (!line.part) names.emplace(line.name, line.unit);
      }
    }
  }
  return names;
}

}  // namespace hw::service
