#include "fuzz/stored_zip.h"

#include <cstdint>
#include <initializer_list>

#include <zlib.h>

namespace hw::fuzz {
namespace {

struct Field {
  std::uint64_t value;
  int bytes;
};

void append(std::string& out, std::initializer_list<Field> fields) {
  for (const Field& field : fields) {
    for (int i = 0; i < field.bytes; ++i) out += static_cast<char>((field.value >> (8 * i)) & 0xFFU);
  }
}

// What stands alike in front of a file and in the directory: from "version needed" to the length of the extra field.
void append_description(std::string& out, const ZipPart& part) {
  const auto* bytes = reinterpret_cast<const Bytef*>(part.bytes.data());
  const std::uint64_t check_sum = ::crc32(0, bytes, static_cast<uInt>(part.bytes.size()));
  constexpr std::uint64_t first_of_1980 = 0x21;
  append(out, {{20, 2}, {0, 2}, {0, 2}, {0, 2}, {first_of_1980, 2}, {check_sum, 4}});
  append(out, {{part.bytes.size(), 4}, {part.bytes.size(), 4}, {part.name.size(), 2}, {0, 2}});
}

}  // namespace

std::string stored_zip(std::span<const ZipPart> parts) {
  std::string files;
  std::string directory;
  for (const ZipPart& part : parts) {
    append(directory, {{0x02014b50, 4}, {20, 2}});
    append_description(directory, part);
    append(directory, {{0, 2}, {0, 2}, {0, 2}, {0, 4}, {files.size(), 4}});
    directory += part.name;
    append(files, {{0x04034b50, 4}});
    append_description(files, part);
    files += part.name;
    files += part.bytes;
  }
  const std::size_t directory_begin = files.size();
  files += directory;
  append(files, {{0x06054b50, 4}, {0, 2}, {0, 2}, {parts.size(), 2}, {parts.size(), 2}});
  append(files, {{directory.size(), 4}, {directory_begin, 4}, {0, 2}});
  return files;
}

}  // namespace hw::fuzz
