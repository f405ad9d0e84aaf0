#pragma once
// Text files as offices write them, to UTF-8.

#include <string>
#include <string_view>

#include "libs/values/result.h"

namespace hw::formats {

enum class TextEncoding { utf_8, utf_16, windows_1252, latin_9 };

// "UTF-8", "Windows-1252", "ISO-8859-15", ...
std::string_view name_of(TextEncoding encoding);

// By the byte order mark: UTF-8, UTF-16 of either order. Without one: UTF-16 where one byte of the first letter is
// zero, UTF-8 where all of it is, else Windows-1252, which has all letters of ISO-8859-1. ISO-8859-15 is told from it
// by its euro sign: the byte A4, which Windows-1252 has for a sign that nobody writes, where no byte is one of those
// between 80 and 9F that only Windows-1252 has.
TextEncoding encoding_of(std::string_view bytes);

// The text without a mark. The five unused bytes of Windows-1252 become the control codes of the same number. Errors:
// bad_input, with the line where one can be said, for text that is not what its mark says, and for zero characters.
Result<std::string> to_utf8(std::string_view bytes);

}  // namespace hw::formats
