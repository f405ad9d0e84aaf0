#pragma once
// A ZIP archive of texts, in memory.

#include <string>
#include <utility>
#include <vector>

#include "libs/values/result.h"

namespace hw::formats {

struct ZipText {
  std::string name;
  std::string text;
};

// Refuses (bad_input) two texts of one name.
Result<std::string> make_zip(const std::vector<ZipText>& texts);

}  // namespace hw::formats
