#pragma once
// The services of a kind of machine as they stand in its task set file.

#include "src/catalogue/kind_service.h"
#include "src/catalogue/toml_table.h"

namespace hw::catalogue {

// Reads every [[service]]. Mistakes of the table: months or people out of range, no task, a task that is not one of
// `tasks`, that comes by appointment, or that is in a service twice or in two; a key twice.
std::vector<KindService> read_services(TomlTable& document, const std::vector<Task>& tasks);

}  // namespace hw::catalogue
