#pragma once
// Isolation points and stored energies as they stand in our TOML files: [[isolation]] and [[stored_energy]].

#include "src/catalogue/isolation.h"
#include "src/catalogue/toml_table.h"

namespace hw::catalogue {

// Both lists of a document; what check() refuses and a key that stands twice are mistakes of the table.
Isolation read_isolation(TomlTable& document);

}  // namespace hw::catalogue
