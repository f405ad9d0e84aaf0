#pragma once
// The files from which a shop is founded: its own, and the starting sets of the library.

#include <filesystem>
#include <vector>

#include "src/catalogue/shop.h"

namespace hw::storage {

struct FoundingFiles {
  catalogue::Shop shop;
  std::vector<catalogue::TaskSet> sets;  // by kind
};

// Refuses a missing file, and what the catalogue refuses in it.
Result<FoundingFiles> read_founding_files(const std::filesystem::path& shop_file, const std::filesystem::path& library);

}  // namespace hw::storage
