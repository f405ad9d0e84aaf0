// Packed bytes unpack to no more than the limit, in blocks of any size.

#include <array>

#include "fuzz/targets.h"
#include "libs/formats/byte_source.h"
#include "libs/values/assert.h"

namespace hw::fuzz {

void packed(std::string_view input) {
  constexpr std::uint64_t bytes_max = 64 * 1024;
  auto source = formats::unpacked(formats::memory_source(input), bytes_max);
  if (!source) return;
  std::uint64_t total = 0;
  std::array<char, 997> block{};
  while (true) {
    const auto count = (*source)->read(block);
    if (!count || *count == 0) break;
    HW_ASSERT(*count <= block.size(), "a block holds no more than it has room for");
    total += *count;
    HW_ASSERT(total <= bytes_max, "nothing unpacks beyond the limit");
  }
}

}  // namespace hw::fuzz
