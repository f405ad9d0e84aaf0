#pragma once
// The data items of a machine, as its probe document lists them.

#include "src/simulate/machine.h"

namespace hw::simulate {

// Fills machine.model and machine.tells from its entry, uuid and traits.
void add_items(Machine& machine);

}  // namespace hw::simulate
