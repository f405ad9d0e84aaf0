#pragma once
// Walks of rounds with what was answered on them, as they follow from the entries.

#include <string>
#include <vector>

#include "libs/values/instant.h"
#include "src/service/entry_body.h"

namespace hw::service {

// One answer with the entry that gave it.
struct AnswerRecord {
  std::string entry;
  std::string walk;
  std::string by;
  Instant happened_at;
  std::optional<Instant> device_at;
  GivenAnswer answer;
};

struct WalkRecord {
  std::string walk;  // the id of its entry "round begun"
  std::string rhythm;
  std::string by;
  Instant begun_at;                 // when somebody set out; as long as only answers arrived, the earliest answer's
  std::vector<std::string> checks;  // what it set out to answer; none as long as only answers arrived
  std::vector<AnswerRecord> answers;
};

}  // namespace hw::service
