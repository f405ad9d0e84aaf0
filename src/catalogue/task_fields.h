#pragma once
// A task as it stands in our TOML files.

#include "src/catalogue/shop.h"
#include "src/catalogue/toml_table.h"

namespace hw::catalogue {

// Reads one [[task]] or [[machine.own_task]]; what check() refuses is a mistake of the table.
Task read_task(TomlTable& table);

// What tells the things of a list apart must not stand twice, nor be empty: that is a mistake of the table.
template <class Things, class KeyOf>
void check_once(TomlTable& table, std::string_view field, const Things& things, KeyOf key_of) {
  std::set<std::string, std::less<>> seen;
  for (const auto& thing : things) {
    const std::string key = key_of(thing);
    if (key.empty()) table.mistake(field, "one of them has an empty key");
    if (!seen.insert(key).second) table.mistake(field, fmt::format("\"{}\" stands twice; each is used once", key));
  }
}

template <class Things>
void check_keys_once(TomlTable& table, std::string_view field, const Things& things) {
  check_once(table, field, things, [](const auto& thing) { return thing.key; });
}

}  // namespace hw::catalogue
