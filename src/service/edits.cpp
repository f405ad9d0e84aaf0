#include "src/service/edits.h"

#include <cctype>

#include "libs/values/characters.h"

namespace hw::service {
namespace {

constexpr std::size_t name_max = 80;
constexpr std::string_view uuid_form = "xxxxxxxx-xxxx-xxxx-xxxx-xxxxxxxxxxxx";

bool is_uuid(std::string_view id) {
  if (id.size() != uuid_form.size()) return false;
  for (std::size_t i = 0; i < id.size(); ++i) {
    const bool is_right = uuid_form[i] == '-' ? id[i] == '-' : std::isxdigit(static_cast<unsigned char>(id[i])) != 0;
    if (!is_right) return false;
  }
  return true;
}

}  // namespace

Result<void> check_id(std::string_view id) {
  if (is_uuid(id)) return {};
  return refuse(ErrorCode::bad_input, "id: \"{}\" is no UUID; it looks like 01941f29-7c00-7aaa-8bbb-123456789abc",
                id.substr(0, 40));
}

Result<void> check_signature(std::string_view id, std::string_view by) {
  HW_TRY(check_id(id));
  if (by.empty() || characters_in(by) > name_max) {
    return refuse(ErrorCode::bad_input, "by: say who it was, in 1 to {} characters", name_max);
  }
  return {};
}

}  // namespace hw::service
