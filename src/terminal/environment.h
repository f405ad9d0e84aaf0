#pragma once
// The environment of this process.

#include <cstdlib>
#include <optional>
#include <string>

namespace hw::terminal {

// Nothing where it is not set.
inline std::optional<std::string> variable(const std::string& name) {
  const char* value = std::getenv(name.c_str());
  return value != nullptr ? std::optional<std::string>{value} : std::nullopt;
}

}  // namespace hw::terminal
