#include "src/terminal/share_folder.h"

#include <cstdlib>
#include <vector>

namespace hw::terminal {

Result<std::filesystem::path> share_folder() {
  std::vector<std::filesystem::path> places;
  if (const char* set = std::getenv("HOURWRIGHT_SHARE")) {
    places = {set};
  } else {
    std::error_code error;
    const auto program = std::filesystem::read_symlink("/proc/self/exe", error);
    places = {program.parent_path().parent_path(), program.parent_path().parent_path() / "share" / "hourwright"};
  }
  for (const auto& place : places) {
    if (std::filesystem::is_directory(place / "library")) return place;
  }
  return refuse(ErrorCode::not_found, "the program's own files are not at {}; HOURWRIGHT_SHARE names their folder",
                places.front().string());
}

}  // namespace hw::terminal
