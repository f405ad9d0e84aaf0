// A set of tasks or a shop: taken as a whole or refused with a sentence that names the file.

#include "src/catalogue/shop_files.h"

#include <cmath>

#include "fuzz/targets.h"
#include "libs/values/assert.h"

namespace hw::fuzz {

void shop_files(std::string_view input) {
  const auto set = catalogue::parse_task_set(input, "set.toml");
  HW_ASSERT(set || set.error().message.starts_with("set.toml"), "a refusal names the file");
  if (set) {
    for (const auto& task : set->tasks) HW_ASSERT(std::isfinite(task.minutes) && task.minutes >= 0, "minutes are time");
  }
  const auto shop = catalogue::parse_shop(input, "shop.toml");
  HW_ASSERT(shop || shop.error().message.starts_with("shop.toml"), "a refusal names the file");
}

}  // namespace hw::fuzz
