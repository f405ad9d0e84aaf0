#include "src/service/given_answers.h"

#include "src/condition/possible_value.h"
#include "src/condition/reading_limits.h"
#include "src/service/round_standing.h"

namespace hw::service {
namespace {

using catalogue::Check;

// The check that was answered, as long as it is still of that kind.
const Check* find_check(const std::vector<catalogue::Round>& rounds, const CheckAnswer& answer) {
  for (const catalogue::Round& round : rounds) {
    for (const Check& check : round.checks) {
      if (check.key == answer.check && word_of(check.kind) == answer.kind) return &check;
    }
  }
  return nullptr;
}

GivenAnswer as_entered(const CheckAnswer& answer) {
  return {.check = answer.check,
          .kind = answer.kind,
          .title = answer.title.value_or(answer.check),
          .answer = answer.answer,
          .value = answer.value,
          .unit = answer.unit,
          .quantity = answer.quantity,
          .note = answer.note};
}

Result<void> judge(GivenAnswer& given, const catalogue::TaskReading& reading) {
  if (given.answer == "not so") given.says = fmt::format("{}: cannot be read", reading.what);
  if (!given.value) return {};
  HW_TRY(condition::check_unit(reading, *given.unit));
  HW_TRY(condition::check_value(reading, *given.value));
  const auto judged = condition::judge(reading, *given.value);
  given.unit = reading.unit;
  given.state = word_of(judged.state);
  given.says = judged.says;
  given.limit = judged.limit;
  return {};
}

Result<GivenAnswer> answer_at(const Check& check, const CheckAnswer& answer) {
  GivenAnswer given = as_entered(answer);
  given.task = check.task;
  given.title = check.title;
  if (given.quantity) given.quantity_unit = check.quantity_unit;
  if (check.reading) HW_TRY(judge(given, *check.reading));
  return given;
}

}  // namespace

Result<GivenAnswers> given_answers(const OpenMachine* machine, const AnswersEdit& edit) {
  const auto rounds = machine ? rounds_of(*machine) : std::vector<catalogue::Round>{};
  GivenAnswers out;
  std::vector<std::string> gone;
  for (std::size_t i = 0; i < edit.answers.size(); ++i) {
    const CheckAnswer& entered = edit.answers[i];
    const Check* check = find_check(rounds, entered);
    if (!check) gone.push_back(fmt::format("\"{}\"", entered.title.value_or(entered.check)));
    auto given = check ? answer_at(*check, entered) : Result<GivenAnswer>{as_entered(entered)};
    if (!given) return refuse(given.error().at(fmt::format("answers[{}]", i)));
    out.answers.push_back(std::move(*given));
  }
  if (machine && !gone.empty()) {
    const std::string& key = machine->record.machine.key;
    const std::string checks = fmt::format("{}", fmt::join(gone, ", "));
    out.stray = Error{ErrorCode::not_found, fmt::format("{} has no check {} (any more)", key, checks),
                      Saying{"no-check", {{"machine", key}, {"checks", checks}}}};
  }
  return out;
}

}  // namespace hw::service
