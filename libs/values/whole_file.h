#pragma once
// Files that are there whole or not at all, whatever breaks off the writing.

#include <filesystem>
#include <string>
#include <string_view>

#include "libs/values/result.h"

namespace hw {

// Refuses: not_found (missing, or no regular file), too_large (more than 1 MiB: no certificate is), disk_full (it
// cannot be read).
Result<std::string> read_whole_file(const std::filesystem::path& file);

enum class ReadableBy { owner, everybody };

// Takes the place of the file at once, and is on disk when it returns; whatever the process would leave out of new
// files' permissions, these people can read it. Refuses (disk_full) what the file system refuses; the file is then as
// it was.
Result<void> write_whole_file(const std::filesystem::path& file, std::string_view text, ReadableBy readers);

}  // namespace hw
