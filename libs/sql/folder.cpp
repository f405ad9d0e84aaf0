#include "libs/sql/folder.h"

#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <string>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/sysmacros.h>
#include <sys/vfs.h>
#include <unistd.h>

namespace hw::sql {
namespace {

namespace fs = std::filesystem;

Error cannot_lock(const fs::path& lock) {
  const int why = errno;
  const auto code = why == ENOENT || why == ENOTDIR ? ErrorCode::not_found : ErrorCode::disk_full;
  return {code, fmt::format("{}: the lock cannot be made: {}", lock.string(), std::strerror(why))};
}

Error held_by_another(const fs::path& folder, int file) {
  std::array<char, 32> text{};
  const ssize_t length = ::pread(file, text.data(), text.size() - 1, 0);
  const std::string holder(text.data(), length > 0 ? std::strcspn(text.data(), "\n") : 0);
  std::string name;
  std::getline(std::ifstream("/proc/" + holder + "/comm"), name);
  return {ErrorCode::in_use,
          fmt::format("{}: is in use by process {}{}; stop that first, or name another folder", folder.string(),
                      holder.empty() ? "(not known)" : holder, name.empty() ? "" : " (" + name + ")")};
}

bool write_process_number(int file) {
  const std::string text = fmt::format("{}\n", ::getpid());
  return ::ftruncate(file, 0) == 0 && ::pwrite(file, text.data(), text.size(), 0) == static_cast<ssize_t>(text.size());
}

// The numbers are those of linux/magic.h, except the two of GFS2 and Lustre, which are given from memory.
struct NetworkFileSystem {
  std::uint64_t magic;
  std::string_view name;
};
constexpr NetworkFileSystem network_file_systems[] = {
    {0x6969, "NFS"},        {0x517B, "SMB"},
    {0xFE534D42, "SMB"},    {0xFF534D42, "SMB"},
    {0x01021997, "9p"},     {0x00C36400, "Ceph"},
    {0x5346414F, "AFS"},    {0x6B414653, "AFS"},
    {0x73757245, "Coda"},   {0x564C, "NCP"},
    {0x0BD00BD0, "Lustre"}, {0x7461636F, "OCFS2"},
    {0x01161970, "GFS2"},   {0x786F4256, "a shared folder of a virtual machine"},
};
constexpr std::uint64_t fuse_magic = 0x65735546;

// The type of the mount that the folder lies on, by its device number: field 3 of a line of mountinfo is major:minor,
// and the type is the first field after " - ".
std::string mount_type_of(const fs::path& folder) {
  struct stat about {};
  if (::stat(folder.c_str(), &about) != 0) return "";
  const std::string device = fmt::format(" {}:{} ", major(about.st_dev), minor(about.st_dev));
  std::ifstream mounts("/proc/self/mountinfo");
  for (std::string line; std::getline(mounts, line);) {
    const std::size_t separator = line.find(" - ");
    if (line.find(device) >= separator || separator == std::string::npos) continue;
    const std::size_t begin = separator + 3;
    return line.substr(begin, line.find(' ', begin) - begin);
  }
  return "";
}

tl::unexpected<Error> refuse_network(const fs::path& folder, std::string_view name) {
  return refuse(ErrorCode::unsupported,
                "{}: lies on {}, where locks cannot be relied on; use a folder on a disk of this computer",
                folder.string(), name);
}

}  // namespace

FolderLock::~FolderLock() {
  if (file_ >= 0) ::close(file_);
}

Result<FolderLock> lock_folder(const fs::path& folder) {
  const fs::path lock = folder / "lock";
  const int file = ::open(lock.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0644);
  if (file < 0) return refuse(cannot_lock(lock));
  FolderLock held(file);
  if (::flock(file, LOCK_EX | LOCK_NB) != 0) {
    return refuse(errno == EWOULDBLOCK ? held_by_another(folder, file) : cannot_lock(lock));
  }
  if (!write_process_number(file)) return refuse(cannot_lock(lock));
  return held;
}

Result<void> sync_folder(const fs::path& folder) {
  const int file = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  const int status = file < 0 ? -1 : ::fsync(file);
  const int why = errno;
  if (file >= 0) ::close(file);
  if (status == 0) return {};
  return refuse(ErrorCode::disk_full, "{}: cannot be made safe on disk: {}", folder.string(), std::strerror(why));
}

Result<void> check_local_file_system(const fs::path& folder) {
  struct statfs about {};
  if (::statfs(folder.c_str(), &about) != 0) {
    return refuse(ErrorCode::not_found, "{}: {}", folder.string(), std::strerror(errno));
  }
  // The field is signed and of a width that differs between machines; the magic numbers have 32 bits.
  const auto magic = static_cast<std::uint64_t>(about.f_type) & 0xFFFFFFFFu;
  return judge_file_system(magic, magic == fuse_magic ? mount_type_of(folder) : "", folder);
}

Result<void> judge_file_system(std::uint64_t magic, std::string_view mount_type, const fs::path& folder) {
  for (const NetworkFileSystem& known : network_file_systems) {
    if (known.magic == magic) return refuse_network(folder, known.name);
  }
  if (magic == fuse_magic && mount_type != "fuseblk") {
    return refuse_network(folder, mount_type.empty() ? "fuse" : mount_type);
  }
  return {};
}

}  // namespace hw::sql
