#include "src/service/title.h"

#include <algorithm>

#include "libs/values/characters.h"

namespace hw::service {
namespace {

constexpr std::size_t title_characters_max = 60;

}  // namespace

Result<void> check_title(std::string_view field, std::string_view title, std::string_view means) {
  const bool is_bare = !title.empty() && title.front() != ' ' && title.back() != ' ';
  const bool has_control = std::any_of(title.begin(), title.end(), [](char c) { return c >= 0 && c < ' '; });
  if (is_bare && !has_control && characters_in(title) <= title_characters_max) return {};
  return refuse(ErrorCode::bad_input, "{}: 1 to {} characters without blanks at the ends, {}", field,
                title_characters_max, means);
}

}  // namespace hw::service
