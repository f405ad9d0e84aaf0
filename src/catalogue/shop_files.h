#pragma once
// Reads the TOML files of library/ (format "hourwright-task-set-1") and of a shop's set-up ("hourwright-shop-1"); both
// formats are described field by field in library/README.md and demo/README.md. A file is taken as a whole or refused
// as a whole; the message names the file, the line and the field. Fields that are not known are refused too, so that a
// typing mistake cannot pass for an absent field.

#include <string_view>

#include "libs/values/result.h"
#include "src/catalogue/shop.h"

namespace hw::catalogue {

// `file` is only named in messages.
Result<TaskSet> parse_task_set(std::string_view text, std::string_view file);
Result<Shop> parse_shop(std::string_view text, std::string_view file);

}  // namespace hw::catalogue
