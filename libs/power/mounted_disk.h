#pragma once
// While a MountedDisk is there, every database that this process opens lies on its disk. For one thread.

#include <memory>

#include "libs/power/disk.h"

namespace hw::power {

// How sure a commit is: as the program asks for it, or as SQLite has it with synchronous=NORMAL, whatever the program
// asks for. The latter shows that a loss would be seen.
enum class Commits { as_asked, normal };

class MountedDisk {
 public:
  explicit MountedDisk(Disk& disk, Commits commits = Commits::as_asked);
  ~MountedDisk();
  MountedDisk(const MountedDisk&) = delete;
  MountedDisk& operator=(const MountedDisk&) = delete;

 private:
  struct Vfs;
  std::unique_ptr<Vfs> vfs_;
};

}  // namespace hw::power
