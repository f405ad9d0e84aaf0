#pragma once
// Bytes from somewhere, one block at a time: a file, standard input, memory; plain, gzip or xz. Nothing is ever held
// whole, so that a file of any length, packed or not, is read in the same small memory.

#include <cstddef>
#include <cstdint>
#include <limits>
#include <memory>
#include <span>
#include <string>
#include <string_view>

#include "libs/values/result.h"

namespace hw::formats {

inline constexpr std::uint64_t no_byte_limit = std::numeric_limits<std::uint64_t>::max();

class ByteSource {
 public:
  virtual ~ByteSource() = default;
  // Fills the front of `into` (which must have room) and says how many bytes; 0 means the end, not "later". Errors
  // name the source and, where the bytes themselves are wrong, the offset.
  virtual Result<std::size_t> read(std::span<char> into) = 0;
  // What messages call it: the path, or "standard input".
  virtual const std::string& name() const = 0;
};

// Opens a file, or standard input for "-". gzip and xz are recognised by their first bytes, never by the name, and
// unpacked; several members one after the other read as one. `bytes_max` limits what comes out, unpacked.
// Errors: not_found; bad_input for a folder, or packed data that is damaged or cut off (with the offset in the packed
// file); too_large beyond bytes_max.
Result<std::unique_ptr<ByteSource>> open_file(const std::string& path, std::uint64_t bytes_max = no_byte_limit);

// The same unpacking over any other source.
Result<std::unique_ptr<ByteSource>> unpacked(std::unique_ptr<ByteSource> packed,
                                             std::uint64_t bytes_max = no_byte_limit);

// Bytes that lie in memory and must outlive the source.
std::unique_ptr<ByteSource> memory_source(std::string_view bytes, std::string name = "memory");

// Everything up to the end; too_large beyond bytes_max.
Result<std::string> read_all(ByteSource& source, std::size_t bytes_max);

}  // namespace hw::formats
