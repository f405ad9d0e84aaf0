#pragma once
// Which parts a task, a service, a stop takes: by the kit that somebody laid down for the machine, else by that for its
// kind, else by what the task itself names. The caller holds a lock.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "src/service/open_shop.h"

namespace hw::service {

struct NeededLine {
  std::string name;  // the part's title, or what the task calls it where no part answers
  std::optional<std::string> part = {};
  double quantity = 0;
  std::string unit;
  std::vector<std::string> tasks = {};  // that take it; none: the service
};

// Of one doing of the task. Where a name's unit is not the part's, no part answers to it.
std::vector<NeededLine> kit_of(const OpenShop& shop, const catalogue::Machine& machine, const catalogue::Task& task);
// What the kind's service takes beside what its tasks take.
std::vector<NeededLine> kit_of_service(const OpenShop& shop, std::string_view kind, std::string_view service);

// Of all tasks of an agreed stop, each part once, and of the service that it is.
std::vector<NeededLine> kit_of(const OpenShop& shop, const OpenMachine& machine, const Stop& stop);

// Names under which tasks ask for parts and to which no part answers, with the unit in which they do.
std::map<std::string, std::string> nameless_parts(const OpenShop& shop);

}  // namespace hw::service
