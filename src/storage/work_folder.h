#pragma once
// A folder for work under way, gone with it; and whether there is room for the work.

#include <cstdint>
#include <filesystem>
#include <string_view>

#include "libs/values/result.h"

namespace hw::storage {

class WorkFolder {
 public:
  // Makes it, readable by its owner only. Refuses (disk_full) what the file system refuses.
  static Result<WorkFolder> make(const std::filesystem::path& path);
  WorkFolder(WorkFolder&& other) noexcept;
  WorkFolder& operator=(WorkFolder&&) = delete;
  ~WorkFolder();
  const std::filesystem::path& path() const { return path_; }
  // It is finished and stays: gives where, and removes it no longer.
  std::filesystem::path release();

 private:
  explicit WorkFolder(std::filesystem::path path) : path_(std::move(path)) {}
  std::filesystem::path path_;
};

// The name of the work on a file or folder, beside it: ".shop.copy.work.4711" by this process's number.
std::filesystem::path work_beside(const std::filesystem::path& file);

// Refuses (disk_full), with both numbers, where the folder's disk has less room than that.
Result<void> check_room(const std::filesystem::path& folder, std::uint64_t bytes, std::string_view what_for);

// Refuses a folder that cannot be made anew: not_found (the one above is missing), bad_input (it is a file), conflict
// (something is in it).
Result<void> check_is_new(const std::filesystem::path& folder);

}  // namespace hw::storage
