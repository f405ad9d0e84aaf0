#pragma once
// What people enter on a round, in the fields of api/openapi.yaml.

#include <optional>
#include <string>
#include <vector>

#include "src/service/edits.h"
#include "src/service/entry_body.h"

namespace hw::service {

struct WalkEdit : Signature {
  std::vector<std::string> checks;  // the keys of the round's checks as the device knows them
};
BOOST_DESCRIBE_STRUCT(WalkEdit, (Signature), (checks))

// Look and clean have an answer, a top up an answer and perhaps a quantity, a reading a value with its unit; by one
// press for the rest a reading was not read and has an answer.
struct CheckAnswer {
  std::string check;
  std::string kind;
  std::optional<std::string> title = {};  // as the person saw it
  std::optional<std::string> answer = {};
  std::optional<double> value = {};
  std::optional<std::string> unit = {};
  std::optional<double> quantity = {};
  std::optional<std::string> note = {};
};
BOOST_DESCRIBE_STRUCT(CheckAnswer, (), (check, kind, title, answer, value, unit, quantity, note))

struct AnswersEdit : Signature {
  std::string walk;
  bool others = false;  // one press for all the checks that are named
  std::vector<CheckAnswer> answers;
  std::optional<std::vector<PhotoName>> photos;
};
BOOST_DESCRIBE_STRUCT(AnswersEdit, (Signature), (walk, others, answers, photos))

// Each refuses (bad_input, naming the field) an id that is no UUID, keys and texts that are missing or too long, a
// check that is named twice, and answers that no check of their kind can have.
Result<void> check(const WalkEdit& edit);
Result<void> check(const AnswersEdit& edit);

}  // namespace hw::service
