#include "src/service/round_entries.h"

#include <algorithm>

#include "src/service/entry_making.h"
#include "src/service/given_answers.h"
#include "src/service/round_standing.h"

namespace hw::service {
namespace {

using catalogue::CheckKind;
using catalogue::Rhythm;

std::string answer_word(const GivenAnswer& answer) {
  if (answer.kind == word_of(CheckKind::reading) && answer.answer == "not so") return "cannot be read";
  const bool is_work = answer.kind == word_of(CheckKind::clean) || answer.kind == word_of(CheckKind::top_up);
  if (!is_work) return answer.answer.value_or("");
  return answer.answer == "as it should be" ? "done" : "not done";
}

// "Coolant level: not so"
std::string sentence_of(const GivenAnswer& answer) {
  if (answer.says) return fmt::format("{}: {}", answer.title, *answer.says);
  if (answer.value) return fmt::format("{}: {} {}", answer.title, *answer.value, answer.unit.value_or(""));
  std::string says = fmt::format("{}: {}", answer.title, answer_word(answer));
  if (answer.quantity) says += fmt::format(", {} {}", *answer.quantity, answer.quantity_unit.value_or(""));
  return says;
}

std::string sentence_of(const std::vector<GivenAnswer>& answers, bool are_others) {
  if (!are_others) return sentence_of(answers.front());
  std::vector<std::string> titles;
  for (const GivenAnswer& one : answers) titles.push_back(one.title);
  return fmt::format("all others as they should be: {}", fmt::join(titles, "; "));
}

}  // namespace

std::string_view kind_of(const AnswersEdit& edit) {
  return edit.others ? "others as they should be" : "check answered";
}

void tell_begun(Entry& entry, const OpenMachine* machine, Rhythm rhythm, const WalkEdit& edit) {
  entry.body.rhythm = word_of(rhythm);
  entry.body.checks = edit.checks;
  entry.says = fmt::format("round begun ({}), {} checks", word_of(rhythm), edit.checks.size());
  if (!machine) return;
  const auto rhythms = rhythms_of(*machine);
  if (std::find(rhythms.begin(), rhythms.end(), rhythm) != rhythms.end()) return;
  const std::string& key = machine->record.machine.key;
  const Saying saying{"no-round", {{"machine", key}, {"rhythm", std::string{word_of(rhythm)}}}};
  make_stray(entry,
             {ErrorCode::not_found, fmt::format("{} has no such round (any more): {}", key, word_of(rhythm)), saying});
}

Result<void> tell_answers(Entry& entry, const OpenMachine* machine, Rhythm rhythm, const AnswersEdit& edit) {
  HW_TAKE(given, given_answers(machine, edit));
  entry.body.walk = edit.walk;
  entry.body.rhythm = word_of(rhythm);
  entry.body.photos = edit.photos;
  if (given.stray) make_stray(entry, *given.stray);
  entry.says = sentence_of(given.answers, edit.others);
  if (!edit.others) entry.note = given.answers.front().note;
  entry.body.answers = std::move(given.answers);
  return {};
}

}  // namespace hw::service
