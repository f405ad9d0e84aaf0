#pragma once
// One thing that a person enters with a telephone.

#include <string>
#include <variant>
#include <vector>

#include "tests/shop/walking.h"

namespace hw::simulation {

struct BeginWalk {
  std::string rhythm;
  std::vector<std::string> checks;
};
struct AnswerChecks {
  std::string rhythm;
  std::string walk;
  bool others = false;
  std::vector<service::CheckAnswer> answers;
};
struct MarkDone {
  std::string task;
};

struct Act {
  std::size_t phone = 0;
  std::string id;
  std::string machine;
  Instant at;  // when it is entered, by a right clock
  std::variant<BeginWalk, AnswerChecks, MarkDone> what;
};

// Tells the server of it now. `clock_off`: how far the phone's clock is ahead.
Result<service::EntryView> tell(const shop::Scene& scene, const Act& act, Duration clock_off);

}  // namespace hw::simulation
