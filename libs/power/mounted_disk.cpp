#include "libs/power/mounted_disk.h"

#include <algorithm>
#include <cstring>
#include <set>

#include <sqlite3.h>

#include "libs/values/assert.h"

namespace hw::power {
namespace {

// What all who have a file open share: its locks, and the memory and locks of the write-ahead log's index.
struct Sharing {
  std::multiset<int> levels;  // SQLITE_LOCK_SHARED and above, one for each who holds it
  std::vector<std::unique_ptr<char[]>> memory;
  int memory_users = 0;
  std::array<int, SQLITE_SHM_NLOCK> readers{};
  std::array<bool, SQLITE_SHM_NLOCK> is_exclusive{};
};

struct Mount {
  Disk* disk;
  Commits commits;
  sqlite3_vfs* system;
  std::map<const File*, Sharing> sharing;
};

struct Opened {
  Mount* mount;
  std::shared_ptr<File> file;
  bool syncs_folder = false;  // once, with the file's first sync: so does SQLite's interface to Linux for its logs
  int level = SQLITE_LOCK_NONE;
  bool uses_memory = false;
  std::array<bool, SQLITE_SHM_NLOCK> reads{}, excludes{};

  Disk& disk() const { return *mount->disk; }
  Sharing& sharing() const { return mount->sharing[file.get()]; }
};

struct Handle {
  sqlite3_file base;
  Opened* opened;
};

Opened& opened_of(sqlite3_file* file) { return *reinterpret_cast<Handle*>(file)->opened; }
Mount& mount_of(sqlite3_vfs* vfs) { return *static_cast<Mount*>(vfs->pAppData); }
std::string name_of(const char* path) {
  const std::string_view text(path);
  return std::string(text.substr(text.find_last_of('/') + 1));
}

// SQLITE_OK where the access may go on.
int met(Disk& disk, Access access, int broken) {
  const auto failure = disk.meet(access);
  if (!failure) return SQLITE_OK;
  return *failure == Failure::full ? SQLITE_FULL : broken;
}

int unmap(sqlite3_file* file, int) {
  Opened& opened = opened_of(file);
  if (!opened.uses_memory) return SQLITE_OK;
  Sharing& sharing = opened.sharing();
  opened.uses_memory = false;
  if (--sharing.memory_users == 0) sharing.memory.clear();
  return SQLITE_OK;
}

int unlock(sqlite3_file* file, int level) {
  Opened& opened = opened_of(file);
  auto& levels = opened.sharing().levels;
  if (level >= opened.level) return SQLITE_OK;
  levels.erase(levels.find(opened.level));
  if (level > SQLITE_LOCK_NONE) levels.insert(level);
  opened.level = level;
  return SQLITE_OK;
}

int close(sqlite3_file* file) {
  unlock(file, SQLITE_LOCK_NONE);
  unmap(file, 0);
  delete &opened_of(file);
  return SQLITE_OK;
}

int read(sqlite3_file* file, void* to, int amount, sqlite3_int64 from) {
  Opened& opened = opened_of(file);
  if (const int status = met(opened.disk(), Access::read, SQLITE_IOERR_READ)) return status;
  const std::string& bytes = opened.file->bytes;
  const auto offset = static_cast<std::size_t>(from), wanted = static_cast<std::size_t>(amount);
  const std::size_t there = offset < bytes.size() ? std::min(bytes.size() - offset, wanted) : 0;
  if (there > 0) std::memcpy(to, bytes.data() + offset, there);
  if (there == wanted) return SQLITE_OK;
  std::memset(static_cast<char*>(to) + there, 0, wanted - there);
  return SQLITE_IOERR_SHORT_READ;
}

int write(sqlite3_file* file, const void* from, int amount, sqlite3_int64 to) {
  Opened& opened = opened_of(file);
  if (const int status = met(opened.disk(), Access::write, SQLITE_IOERR_WRITE)) return status;
  opened.disk().write(*opened.file, static_cast<std::size_t>(to),
                      {static_cast<const char*>(from), static_cast<std::size_t>(amount)});
  return SQLITE_OK;
}

int truncate(sqlite3_file* file, sqlite3_int64 length) {
  Opened& opened = opened_of(file);
  if (const int status = met(opened.disk(), Access::truncate, SQLITE_IOERR_TRUNCATE)) return status;
  opened.disk().truncate(*opened.file, static_cast<std::size_t>(length));
  return SQLITE_OK;
}

int sync(sqlite3_file* file, int) {
  Opened& opened = opened_of(file);
  if (const int status = met(opened.disk(), Access::sync, SQLITE_IOERR_FSYNC)) return status;
  opened.disk().sync(*opened.file);
  if (opened.syncs_folder) opened.disk().sync_folder();
  opened.syncs_folder = false;
  return SQLITE_OK;
}

int file_size(sqlite3_file* file, sqlite3_int64* size) {
  *size = static_cast<sqlite3_int64>(opened_of(file).file->bytes.size());
  return SQLITE_OK;
}

int lock(sqlite3_file* file, int level) {
  Opened& opened = opened_of(file);
  if (level <= opened.level) return SQLITE_OK;
  auto& levels = opened.sharing().levels;
  auto others = levels;
  if (opened.level > SQLITE_LOCK_NONE) others.erase(others.find(opened.level));
  const int highest = others.empty() ? SQLITE_LOCK_NONE : *others.rbegin();
  const bool may = level == SQLITE_LOCK_SHARED     ? highest < SQLITE_LOCK_PENDING
                   : level == SQLITE_LOCK_RESERVED ? highest < SQLITE_LOCK_RESERVED
                                                   : others.empty();
  if (!may) return SQLITE_BUSY;
  levels = std::move(others);
  levels.insert(level);
  opened.level = level;
  return SQLITE_OK;
}

int check_reserved(sqlite3_file* file, int* is_reserved) {
  const auto& levels = opened_of(file).sharing().levels;
  *is_reserved = !levels.empty() && *levels.rbegin() >= SQLITE_LOCK_RESERVED;
  return SQLITE_OK;
}

int control(sqlite3_file* file, int what, void* arguments) {
  if (what != SQLITE_FCNTL_PRAGMA || opened_of(file).mount->commits == Commits::as_asked) return SQLITE_NOTFOUND;
  const char* const* pragma = static_cast<char**>(arguments);
  const bool is_swallowed =
      sqlite3_stricmp(pragma[1], "synchronous") == 0 && pragma[2] != nullptr && sqlite3_stricmp(pragma[2], "full") == 0;
  return is_swallowed ? SQLITE_OK : SQLITE_NOTFOUND;
}

int sector_size(sqlite3_file*) { return 4096; }
int characteristics(sqlite3_file*) { return SQLITE_IOCAP_POWERSAFE_OVERWRITE; }

int map_memory(sqlite3_file* file, int region, int bytes, int makes, void volatile** memory) {
  Opened& opened = opened_of(file);
  Sharing& sharing = opened.sharing();
  if (!opened.uses_memory) ++sharing.memory_users;
  opened.uses_memory = true;
  *memory = nullptr;
  const auto wanted = static_cast<std::size_t>(region);
  while (sharing.memory.size() <= wanted) {
    if (makes == 0) return SQLITE_OK;
    sharing.memory.push_back(std::make_unique<char[]>(static_cast<std::size_t>(bytes)));
  }
  *memory = sharing.memory[wanted].get();
  return SQLITE_OK;
}

bool may_lock_memory(const Opened& opened, const Sharing& sharing, std::size_t slot, bool is_exclusive) {
  if (sharing.is_exclusive[slot] && !opened.excludes[slot]) return false;
  return !is_exclusive || sharing.readers[slot] == (opened.reads[slot] ? 1 : 0);
}

int lock_memory(sqlite3_file* file, int offset, int count, int flags) {
  Opened& opened = opened_of(file);
  Sharing& sharing = opened.sharing();
  const bool is_exclusive = (flags & SQLITE_SHM_EXCLUSIVE) != 0, takes = (flags & SQLITE_SHM_LOCK) != 0;
  const auto first = static_cast<std::size_t>(offset), end = first + static_cast<std::size_t>(count);
  for (std::size_t slot = first; takes && slot < end; ++slot) {
    if (!may_lock_memory(opened, sharing, slot, is_exclusive)) return SQLITE_BUSY;
  }
  for (std::size_t slot = first; slot < end; ++slot) {
    if (is_exclusive) {
      sharing.is_exclusive[slot] = opened.excludes[slot] = takes;
    } else if (opened.reads[slot] != takes) {
      sharing.readers[slot] += takes ? 1 : -1;
      opened.reads[slot] = takes;
    }
  }
  return SQLITE_OK;
}

void memory_barrier(sqlite3_file*) {}

constexpr sqlite3_io_methods file_methods{.iVersion = 2,
                                          .xClose = close,
                                          .xRead = read,
                                          .xWrite = write,
                                          .xTruncate = truncate,
                                          .xSync = sync,
                                          .xFileSize = file_size,
                                          .xLock = lock,
                                          .xUnlock = unlock,
                                          .xCheckReservedLock = check_reserved,
                                          .xFileControl = control,
                                          .xSectorSize = sector_size,
                                          .xDeviceCharacteristics = characteristics,
                                          .xShmMap = map_memory,
                                          .xShmLock = lock_memory,
                                          .xShmBarrier = memory_barrier,
                                          .xShmUnmap = unmap,
                                          .xFetch = nullptr,
                                          .xUnfetch = nullptr};

int open(sqlite3_vfs* vfs, const char* path, sqlite3_file* file, int flags, int* flags_out) {
  file->pMethods = nullptr;
  Mount& mount = mount_of(vfs);
  if (const int status = met(*mount.disk, Access::open, SQLITE_CANTOPEN)) return status;
  const bool makes = (flags & SQLITE_OPEN_CREATE) != 0;
  const bool is_new = path != nullptr && !mount.disk->has(name_of(path));
  auto opened = std::make_unique<Opened>();
  opened->mount = &mount;
  opened->file = path == nullptr ? std::make_shared<File>() : mount.disk->open(name_of(path), makes);
  if (!opened->file) return SQLITE_CANTOPEN;
  opened->syncs_folder = is_new && (flags & (SQLITE_OPEN_WAL | SQLITE_OPEN_MAIN_JOURNAL)) != 0;
  if (flags_out != nullptr) *flags_out = flags;
  reinterpret_cast<Handle*>(file)->opened = opened.release();
  file->pMethods = &file_methods;
  return SQLITE_OK;
}

int remove_file(sqlite3_vfs* vfs, const char* path, int syncs_folder) {
  Disk& disk = *mount_of(vfs).disk;
  if (!disk.has(name_of(path))) return SQLITE_IOERR_DELETE_NOENT;
  disk.remove(name_of(path));
  if (syncs_folder != 0) disk.sync_folder();
  return SQLITE_OK;
}

int access_file(sqlite3_vfs* vfs, const char* path, int, int* is_there) {
  *is_there = mount_of(vfs).disk->has(name_of(path)) ? 1 : 0;
  return SQLITE_OK;
}

int full_path(sqlite3_vfs*, const char* path, int bytes, char* out) {
  sqlite3_snprintf(bytes, out, "%s", path);
  return SQLITE_OK;
}

// The same on every run.
int chance_bytes(sqlite3_vfs*, int bytes, char* out) {
  for (int n = 0; n < bytes; ++n) out[n] = static_cast<char>(n * 37 + 11);
  return bytes;
}

int wait_for(sqlite3_vfs*, int) { return 0; }
int current_time(sqlite3_vfs* vfs, sqlite3_int64* time) {
  sqlite3_vfs* system = mount_of(vfs).system;
  return system->xCurrentTimeInt64(system, time);
}

// Called by SQLite for every connection that it opens.
int begin_normal(sqlite3* database, const char**, const void*) {
  return sqlite3_exec(database, "pragma synchronous = normal", nullptr, nullptr, nullptr);
}
using Entry = void (*)();
Entry normal_entry() { return reinterpret_cast<Entry>(&begin_normal); }

}  // namespace

struct MountedDisk::Vfs {
  Mount mount;
  sqlite3_vfs vfs{};
};

MountedDisk::MountedDisk(Disk& disk, Commits commits) : vfs_(std::make_unique<Vfs>()) {
  HW_ASSERT(sqlite3_initialize() == SQLITE_OK, "SQLite is there");
  vfs_->mount = {&disk, commits, sqlite3_vfs_find(nullptr), {}};
  sqlite3_vfs& vfs = vfs_->vfs;
  vfs.iVersion = 2;
  vfs.szOsFile = sizeof(Handle);
  vfs.mxPathname = 512;
  vfs.zName = "power";
  vfs.pAppData = &vfs_->mount;
  vfs.xOpen = open;
  vfs.xDelete = remove_file;
  vfs.xAccess = access_file;
  vfs.xFullPathname = full_path;
  vfs.xRandomness = chance_bytes;
  vfs.xSleep = wait_for;
  vfs.xCurrentTimeInt64 = current_time;
  sqlite3_vfs_register(&vfs, 1);
  if (commits == Commits::normal) sqlite3_auto_extension(normal_entry());
}

MountedDisk::~MountedDisk() {
  if (vfs_->mount.commits == Commits::normal) sqlite3_cancel_auto_extension(normal_entry());
  sqlite3_vfs_unregister(&vfs_->vfs);
  sqlite3_vfs_register(vfs_->mount.system, 1);
}

}  // namespace hw::power
