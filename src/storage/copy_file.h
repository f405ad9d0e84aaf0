#pragma once
// A copy's file, in the form of src/copies/copy_head.h: written, sealed, read. Nothing is held whole.

#include <filesystem>
#include <string>
#include <vector>

#include "libs/formats/new_file.h"
#include "src/copies/copy_head.h"

namespace hw::storage {

// What a copy's head says of a file that is to go into it under this name.
Result<copies::CopiedFile> describe_file(const std::filesystem::path& file, std::string name);

// Writes head, files and seal; `files` are those of the head, in its order. Refuses what reading and writing refuse.
Result<void> write_copy(formats::NewFile& out, const copies::CopyHead& head,
                        const std::vector<std::filesystem::path>& files);

// What the copy says of itself; its seal is not looked at. Refuses: not_found, bad_input (no copy), unsupported (of a
// later form).
Result<copies::CopyHead> read_copy_head(const std::filesystem::path& file);

// Refuses besides (corrupt) a copy of which any byte was altered, or that ends too early.
Result<copies::CopyHead> check_seal(const std::filesystem::path& file);

// Unpacks the files of a sealed copy into an empty folder, each on disk and readable by its owner only. Refuses:
// corrupt (what unpacks is not what was packed), disk_full.
Result<void> unpack_copy(const std::filesystem::path& file, const std::filesystem::path& folder);

}  // namespace hw::storage
