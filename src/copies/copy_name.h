#pragma once
// What the files of nightly copies are called: hourwright-2026-11-26T020000Z.copy. Whatever is called otherwise is
// somebody else's and left alone. No colons: not every disk takes them.

#include <optional>
#include <string>
#include <string_view>

#include "libs/values/instant.h"

namespace hw::copies {

// To the second.
std::string copy_name(Instant made_at);
// Nothing where the name is not one that copy_name() gives.
std::optional<Instant> parse_copy_name(std::string_view name);

}  // namespace hw::copies
