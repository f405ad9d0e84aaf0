#pragma once
// A ZIP archive in memory, read file by file. Unpacked bytes are counted over all of them, so that a small archive that
// unpacks to a huge one is refused in time.

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include "libs/formats/byte_source.h"

struct zip;

namespace hw::formats {

class ZipArchive {
 public:
  // The bytes must outlive it. Errors: bad_input for what is no archive or a damaged one.
  static Result<ZipArchive> open(std::string_view bytes, std::uint64_t unpacked_bytes_max);

  bool has(const std::string& name) const;  // capitals do not count
  // The file's bytes as they unpack; it must not outlive the archive. Errors, also while it is read: not_found;
  // bad_input for a file with a password or a damaged one (its check sum is looked at); too_large when all that was
  // read of the archive is more than the limit.
  Result<std::unique_ptr<ByteSource>> file(const std::string& name) const;

 private:
  struct Close {
    void operator()(::zip* archive) const;
  };
  struct Budget {
    std::uint64_t bytes_left = 0;
  };
  class File;

  ZipArchive(std::unique_ptr<::zip, Close> archive, std::uint64_t unpacked_bytes_max);

  std::unique_ptr<::zip, Close> archive_;
  std::unique_ptr<Budget> budget_;
};

}  // namespace hw::formats
