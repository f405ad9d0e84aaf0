#pragma once
// From what a person entered at a check to what the logbook keeps of it: named by the check as it is, and a reading
// judged against its limits.

#include "src/service/open_shop.h"
#include "src/service/round_edits.h"

namespace hw::service {

struct GivenAnswers {
  std::vector<GivenAnswer> answers;  // in the order of the edit
  std::optional<Error> stray = {};   // which of their checks are not there (any more)
};

// Looks the checks up in all rounds of the machine, since a check may have moved from the shift to the day meanwhile;
// in none without a machine. What is answered at a check that is not there is kept as it was entered, without a task.
// Refuses (bad_input) a reading in another unit, and a value that it cannot have.
Result<GivenAnswers> given_answers(const OpenMachine* machine, const AnswersEdit& edit);

}  // namespace hw::service
