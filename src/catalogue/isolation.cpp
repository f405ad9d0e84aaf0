#include "src/catalogue/isolation.h"

#include <array>
#include <span>
#include <utility>

#include "libs/values/characters.h"

namespace hw::catalogue {
namespace {

using NamedText = std::pair<std::string_view, const std::string*>;

Result<void> check_texts(std::span<const NamedText> texts) {
  for (const auto& [field, text] : texts) {
    if (text->find_first_not_of(' ') == std::string::npos) {
      return refuse(ErrorCode::bad_input, "{}: it is empty; it says something in both languages", field);
    }
    if (characters_in(*text) > isolation_text_max) {
      return refuse(ErrorCode::bad_input, "{}: it has more than {} characters; a card has room for so many", field,
                    isolation_text_max);
    }
  }
  return {};
}

Result<void> check_wait(std::optional<double> wait_minutes) {
  if (!wait_minutes) return {};
  // So written that "not a number" is refused.
  if (*wait_minutes > 0 && *wait_minutes <= isolation_wait_minutes_max) return {};
  return refuse(ErrorCode::bad_input, "wait_minutes: {} is out of range; it is above 0 and at most {}", *wait_minutes,
                isolation_wait_minutes_max);
}

}  // namespace

Result<void> check(const IsolationPoint& point) {
  const std::array texts{NamedText{"key", &point.key},           NamedText{"title", &point.title},
                         NamedText{"title_de", &point.title_de}, NamedText{"where", &point.where},
                         NamedText{"where_de", &point.where_de}, NamedText{"how", &point.how},
                         NamedText{"how_de", &point.how_de}};
  HW_TRY(check_texts(texts));
  return check_wait(point.wait_minutes);
}

Result<void> check(const StoredEnergy& stored) {
  const std::array texts{NamedText{"title", &stored.title},     NamedText{"title_de", &stored.title_de},
                         NamedText{"release", &stored.release}, NamedText{"release_de", &stored.release_de},
                         NamedText{"verify", &stored.verify},   NamedText{"verify_de", &stored.verify_de}};
  HW_TRY(check_texts(texts));
  return check_wait(stored.wait_minutes);
}

}  // namespace hw::catalogue
