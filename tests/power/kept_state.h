#pragma once
// What a disk holds when the program opens it, and whether that is whole.

#include <map>
#include <string>

#include "libs/power/disk.h"
#include "libs/sql/connection.h"

namespace hw::power {

// A number of every table's every value, and of the schema's version.
std::string state_of(sql::Connection& db);
// Of the database on the disk that is mounted, beside whoever has it open.
std::string state_beside();

struct Kept {
  std::string state;
  // Why it is not whole: it does not open; SQLite's own check, the chain of the logbook, what follows from it, or the
  // shop's opening finds something. Empty: it is whole.
  std::string trouble;
};

// Opens disks as the server does at its start.
class Reopening {
 public:
  Kept look(const Image& image);
  // Different databases that there were.
  std::size_t different() const { return known_.size(); }

 private:
  Kept examine(const std::filesystem::path& folder) const;

  std::map<std::size_t, Kept> known_;  // by the bytes of the database once its log was written back
};

}  // namespace hw::power
