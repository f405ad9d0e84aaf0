#pragma once
// What a disk may hold after the power failed: README.md says which.

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "libs/numerics/random.h"
#include "libs/power/disk.h"

namespace hw::power {

class PowerCut {
 public:
  // A disk with everything on it safe.
  explicit PowerCut(const Image& image);

  // The operation was done. It has to live as long as the object.
  void advance(const Operation& operation);
  // The power fails while that operation is under way (null: between two). Everything follows from the seed.
  Image image(const Operation* under_way, std::uint64_t seed) const;

 private:
  struct Kept {
    std::string synced;
    std::vector<const Operation*> unsynced;
  };

  std::map<int, Kept> files_;
  std::map<std::string, int> names_;  // of the folder as it was synced
  std::vector<const Operation*> folder_unsynced_;
};

}  // namespace hw::power
