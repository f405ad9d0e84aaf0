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

// The signature of these edits is the act's, put in when it is told.
struct MakeFinding {
  service::FindingEdit edit;
};
struct ChangeFinding {
  std::string finding;
  service::FindingChange edit;
};
struct SettleFinding {
  std::string finding;
  service::FindingSettle edit;
};
struct ReopenFinding {
  std::string finding;
  service::FindingReopen edit;
};
// The act's id is the photo's.
struct KeepPhoto {
  std::string bytes;  // a JPEG by its first bytes
};

struct Act {
  std::size_t phone = 0;
  std::string id;
  std::string machine;
  Instant at;  // when it is entered, by a right clock
  std::variant<BeginWalk, AnswerChecks, MarkDone, MakeFinding, ChangeFinding, SettleFinding, ReopenFinding, KeepPhoto>
      what;
};

// The finding that an act changes, settles or reopens; nothing of any other act.
std::optional<std::string> followed_finding(const Act& act);

// Tells the server of it now. `clock_off`: how far the phone's clock is ahead.
Result<void> tell(const shop::Scene& scene, const Act& act, Duration clock_off);

}  // namespace hw::simulation
