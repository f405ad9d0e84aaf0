#pragma once
// library/drawings.json as it was when the program was built; CMakeLists.txt writes the file that defines it.

#include <string_view>

namespace hw::sheets {

extern const std::string_view drawings_text;

}  // namespace hw::sheets
