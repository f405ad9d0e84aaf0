#pragma once
// Text files as offices write them, to UTF-8.

#include <string>
#include <string_view>

#include "libs/values/result.h"

namespace hw::formats {

// By the byte order mark: UTF-8, UTF-16 of either order. Without one: UTF-16 where one byte of the first letter is
// zero, UTF-8 where all of it is, else Windows-1252 (its five unused bytes become the control codes of the same
// number). The mark itself is left out. Errors: bad_input, with the line where one can be said, for text that is not
// what its mark says, and for zero characters.
Result<std::string> to_utf8(std::string_view bytes);

}  // namespace hw::formats
