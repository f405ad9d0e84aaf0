#include "tests/abuse/abused_shop.h"

#include <cstdlib>

namespace hw::abuse {

int amount_of(const char* setting, int usual) {
  const char* said = std::getenv(setting);
  return said == nullptr ? usual : std::atoi(said);
}

}  // namespace hw::abuse
