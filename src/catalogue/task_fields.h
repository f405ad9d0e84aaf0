#pragma once
// A task as it stands in our TOML files.

#include "src/catalogue/shop.h"
#include "src/catalogue/toml_table.h"

namespace hw::catalogue {

// Reads one [[task]] or [[machine.own_task]]; what check() refuses is a mistake of the table.
Task read_task(TomlTable& table);

// Keys that stand twice in a list of things with a key are a mistake of the table.
template <class Things>
void check_keys_once(TomlTable& table, std::string_view field, const Things& things) {
  std::set<std::string, std::less<>> seen;
  for (const auto& thing : things) {
    if (thing.key.empty()) table.mistake(field, "one of them has an empty key");
    if (!seen.insert(thing.key).second) {
      table.mistake(field, fmt::format("\"{}\" stands twice; each key is used once", thing.key));
    }
  }
}

}  // namespace hw::catalogue
