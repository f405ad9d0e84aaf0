#pragma once
// A ZIP archive of files that are stored as they are (APPNOTE.TXT 6.3, sections 4.3.7, 4.3.12, 4.3.16; from memory).

#include <span>
#include <string>
#include <string_view>

namespace hw::fuzz {

struct ZipPart {
  std::string_view name;
  std::string_view bytes;
};

std::string stored_zip(std::span<const ZipPart> parts);

}  // namespace hw::fuzz
