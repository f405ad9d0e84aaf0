#include "src/service/edits.h"

#include <cctype>

#include "libs/values/characters.h"

namespace hw::service {
namespace {

constexpr std::size_t name_max = 80;
constexpr std::size_t key_max = 60;
constexpr std::size_t note_max = 2000;
constexpr std::size_t photos_max = 20;
constexpr std::string_view uuid_form = "xxxxxxxx-xxxx-xxxx-xxxx-xxxxxxxxxxxx";

bool is_uuid(std::string_view id) {
  if (id.size() != uuid_form.size()) return false;
  for (std::size_t i = 0; i < id.size(); ++i) {
    const bool is_right = uuid_form[i] == '-' ? id[i] == '-' : std::isxdigit(static_cast<unsigned char>(id[i])) != 0;
    if (!is_right) return false;
  }
  return true;
}

bool is_sha256(std::string_view text) {
  return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

}  // namespace

Result<void> check_id(std::string_view field, std::string_view id) {
  if (is_uuid(id)) return {};
  return refuse(ErrorCode::bad_input, "{}: \"{}\" is no UUID; it looks like 01941f29-7c00-7aaa-8bbb-123456789abc",
                field, id.substr(0, 40));
}

Result<void> check_signature(std::string_view id, std::string_view by) {
  HW_TRY(check_id("id", id));
  if (by.empty() || characters_in(by) > name_max) {
    return refuse(ErrorCode::bad_input, Saying{"name-missing", {}, {{"most", double{name_max}}}},
                  "by: say who it was, in 1 to {} characters", name_max);
  }
  return {};
}

Result<void> check_key(std::string_view field, std::string_view key) {
  if (!key.empty() && characters_in(key) <= key_max) return {};
  return refuse(ErrorCode::bad_input, "{}: a key has 1 to {} characters", field, key_max);
}

Result<void> check_photos(const std::optional<std::vector<PhotoName>>& photos) {
  if (!photos) return {};
  if (photos->size() > photos_max) {
    return refuse(ErrorCode::too_large, Saying{"photos-many", {}, {{"most", double{photos_max}}}},
                  "photos: at most {} at once, not {}", photos_max, photos->size());
  }
  for (const PhotoName& photo : *photos) {
    HW_TRY(check_id("photos", photo.id));
    if (!is_sha256(photo.sha256)) {
      return refuse(ErrorCode::bad_input, "photos: {} needs its SHA-256, 64 digits of 0-9 and a-f", photo.id);
    }
  }
  return {};
}

Result<void> check_text(std::string_view field, std::string_view text) {
  const bool is_blank = text.find_first_not_of(" \t\r\n") == std::string_view::npos;
  if (!is_blank && characters_in(text) <= note_max) return {};
  return refuse(ErrorCode::bad_input, Saying{"text-length", {}, {{"most", double{note_max}}}},
                "{}: say it in 1 to {} characters", field, note_max);
}

Result<void> check_note(const std::optional<std::string>& note) {
  if (!note || characters_in(*note) <= note_max) return {};
  return refuse(ErrorCode::bad_input, Saying{"text-long", {}, {{"most", double{note_max}}}},
                "note: it has at most {} characters", note_max);
}

}  // namespace hw::service
