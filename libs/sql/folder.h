#pragma once
// What must hold of the folder that a database lies in: only one process has it, and its disk is in this computer.

#include <cstdint>
#include <filesystem>
#include <string_view>
#include <utility>

#include "libs/values/result.h"

namespace hw::sql {

// Holds a folder for this process until it goes out of scope; the system lets go of it if the process dies.
class FolderLock {
 public:
  FolderLock(FolderLock&& other) noexcept : file_(std::exchange(other.file_, -1)) {}
  FolderLock& operator=(FolderLock&&) = delete;
  ~FolderLock();

 private:
  friend Result<FolderLock> lock_folder(const std::filesystem::path& folder);
  explicit FolderLock(int file) : file_(file) {}
  int file_;
};

// Takes <folder>/lock, with this process's number inside. Errors: in_use naming the process that holds it; not_found,
// disk_full where the lock cannot be made.
Result<FolderLock> lock_folder(const std::filesystem::path& folder);

// What was made, renamed or removed in the folder is on disk when it returns. Errors: disk_full where that fails.
Result<void> sync_folder(const std::filesystem::path& folder);

// Refuses (unsupported) file systems that come over a network, on which neither locks nor shared memory can be relied
// on: NFS, SMB, 9p, Ceph, FUSE other than on a block device, and the like.
Result<void> check_local_file_system(const std::filesystem::path& folder);

// The judgement behind it: the magic number of statfs(2), and the type as /proc/self/mountinfo has it (used for FUSE).
Result<void> judge_file_system(std::uint64_t magic, std::string_view mount_type, const std::filesystem::path& folder);

}  // namespace hw::sql
