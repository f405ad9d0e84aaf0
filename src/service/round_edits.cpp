#include "src/service/round_edits.h"

#include <cmath>
#include <set>

#include "libs/values/characters.h"
#include "src/catalogue/round.h"

namespace hw::service {
namespace {

using catalogue::CheckKind;

constexpr std::size_t checks_max = 500;
constexpr std::size_t check_key_max = 200;  // a task's key and what is read
constexpr std::size_t title_max = 200;
constexpr double quantity_max = 1e9;
constexpr std::string_view good = "as it should be";
constexpr std::string_view bad = "not so";

Result<void> check_keys(const std::vector<std::string_view>& keys, const char* field) {
  if (keys.empty() || keys.size() > checks_max) {
    return refuse(ErrorCode::bad_input, "{}: name 1 to {} checks", field, checks_max);
  }
  std::set<std::string_view> named;
  for (const std::string_view key : keys) {
    if (key.empty() || characters_in(key) > check_key_max) {
      return refuse(ErrorCode::bad_input, "{}: a check's key has 1 to {} characters", field, check_key_max);
    }
    if (!named.insert(key).second) return refuse(ErrorCode::bad_input, "{}: \"{}\" is named twice", field, key);
  }
  return {};
}

Result<void> check_word(const CheckAnswer& one) {
  if (!one.answer) return refuse(ErrorCode::bad_input, "answer: it is missing; it is {} or {}", good, bad);
  if (*one.answer == good || *one.answer == bad) return {};
  return refuse(ErrorCode::bad_input, "answer: \"{}\" is none of {}, {}", one.answer->substr(0, 40), good, bad);
}

// A gauge that is broken or out of sight is not so: then nothing was read.
Result<void> check_read(const CheckAnswer& one) {
  if (one.answer == bad && !one.value && !one.unit) return {};
  if (!one.value || !one.unit) {
    return refuse(ErrorCode::bad_input, "value: a reading has a value and its unit; for example 5.2 and bar");
  }
  if (one.answer) return refuse(ErrorCode::bad_input, "answer: a reading that was read has none");
  return {};
}

Result<void> check_quantity(const CheckAnswer& one) {
  if (!one.quantity || (std::isfinite(*one.quantity) && *one.quantity >= 0 && *one.quantity <= quantity_max)) return {};
  return refuse(ErrorCode::bad_input, "quantity: {} cannot be; it is 0 or more", *one.quantity);
}

Result<void> check(const CheckAnswer& one, bool is_of_others) {
  const auto kind = catalogue::parse_check_kind(one.kind);
  if (!kind) return refuse(kind.error().at("kind"));
  if (one.title && characters_in(*one.title) > title_max) {
    return refuse(ErrorCode::bad_input, "title: it has at most {} characters", title_max);
  }
  HW_TRY(check_note(one.note));
  if (one.quantity && *kind != CheckKind::top_up) {
    return refuse(ErrorCode::bad_input, "quantity: only a top up has one");
  }
  HW_TRY(check_quantity(one));
  if (*kind == CheckKind::reading && !is_of_others) return check_read(one);
  if (one.value || one.unit) {
    return refuse(ErrorCode::bad_input, "value: only a reading that was read has a value and a unit");
  }
  if (is_of_others && one.answer != good) {
    return refuse(ErrorCode::bad_input, "answer: of the others each is {}", good);
  }
  return check_word(one);
}

}  // namespace

Result<void> check(const WalkEdit& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  return check_keys({edit.checks.begin(), edit.checks.end()}, "checks");
}

Result<void> check(const AnswersEdit& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  HW_TRY(check_id("walk", edit.walk));
  if (!edit.others && edit.answers.size() != 1) {
    return refuse(ErrorCode::bad_input, "answers: there are {}; it is one, unless it is one press for the others",
                  edit.answers.size());
  }
  std::vector<std::string_view> keys;
  for (const CheckAnswer& one : edit.answers) keys.push_back(one.check);
  HW_TRY(check_keys(keys, "answers"));
  for (std::size_t i = 0; i < edit.answers.size(); ++i) {
    const auto checked = check(edit.answers[i], edit.others);
    if (!checked) return refuse(checked.error().at(fmt::format("answers[{}]", i)));
  }
  return check_photos(edit.photos);
}

}  // namespace hw::service
