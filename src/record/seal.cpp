#include "src/record/seal.h"

#include <fmt/format.h>

#include "libs/values/sha256.h"

namespace hw::record {

const std::string& first_previous_hash() {
  static const std::string zeros(64, '0');
  return zeros;
}

std::string canonical_bytes(std::int64_t ordinal, std::span<const Field> fields) {
  std::string bytes = fmt::format("entry 1\nordinal:{}\n", ordinal);
  for (const Field& field : fields) {
    bytes += field.name;
    bytes += field.value ? fmt::format(":{}:", field.value->size()) : ":-";
    if (field.value) bytes += *field.value;
    bytes += '\n';
  }
  return bytes;
}

std::string seal(std::string_view previous_hash, std::string_view entry_bytes) {
  std::string sealed(previous_hash);
  sealed += '\n';
  sealed += entry_bytes;
  return print_hex(sha256(sealed));
}

}  // namespace hw::record
