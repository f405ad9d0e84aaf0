#include "src/service/finding_edits.h"

#include <algorithm>

#include "libs/values/characters.h"

namespace hw::service {
namespace {

constexpr std::size_t owner_max = 80;
constexpr std::size_t named_key_max = 200;  // of a check: a task's key, with what is read

Result<void> check_length(std::string_view field, const std::optional<std::string>& text, std::size_t most) {
  if (!text || characters_in(*text) <= most) return {};
  return refuse(ErrorCode::bad_input, Saying{"text-long", {}, {{"most", static_cast<double>(most)}}},
                "{}: it has at most {} characters", field, most);
}

Result<void> check_walk(const std::optional<std::string>& walk) {
  return walk ? check_id("walk", *walk) : Result<void>{};
}

Result<void> check_day(const std::optional<std::string>& day) {
  if (!day || day->empty()) return {};
  const auto read = parse_local_date(*day);
  if (!read) return refuse(read.error().at("due_on"));
  return {};
}

}  // namespace

Result<void> check(const FindingEdit& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  HW_TRY(check_text("what", edit.what));
  HW_TRY(check_length("owner", edit.owner, owner_max));
  HW_TRY(check_length("task", edit.task, named_key_max));
  HW_TRY(check_length("check", edit.check, named_key_max));
  HW_TRY(check_walk(edit.walk));
  return check_photos(edit.photos);
}

Result<void> check(const FindingChange& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  HW_TRY(check_length("owner", edit.owner, owner_max));
  HW_TRY(check_length("task", edit.task, named_key_max));
  HW_TRY(check_note(edit.note));
  HW_TRY(check_day(edit.due_on));
  HW_TRY(check_photos(edit.photos));
  const bool has_note = edit.note && !edit.note->empty();
  const bool has_photos = edit.photos && !edit.photos->empty();
  if (edit.severity || edit.owner || edit.due_on || edit.task || has_note || has_photos) return {};
  return refuse(ErrorCode::bad_input, Saying{"changes-nothing"},
                "it changes nothing; right is one at least of severity, owner, due_on, task, note, photos");
}

Result<void> check(const FindingSettle& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  HW_TRY(check_text("done", edit.done));
  return check_photos(edit.photos);
}

Result<void> check(const FindingReopen& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  return check_text("why", edit.why);
}

Result<void> check(const CorrectionEdit& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  return check_text("says", edit.says);
}

}  // namespace hw::service
