#include "tests/places/places.h"

namespace hw {
namespace {

std::string joined(std::string_view folder, std::string_view path) {
  std::string out{folder};
  if (!path.empty()) out.append("/").append(path);
  return out;
}

}  // namespace

std::string in_source(std::string_view path) { return joined(HW_SOURCE_DIR, path); }

std::string in_build(std::string_view path) { return joined(HW_BUILD_DIR, path); }

}  // namespace hw
