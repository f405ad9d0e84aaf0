#pragma once
// What the service tells of rounds, in the words and fields of api/openapi.yaml: one struct for one schema there.

#include <optional>
#include <string>
#include <vector>

#include "src/service/views.h"

namespace hw::service {

struct CheckValueView {
  double value = 0;
  std::string state;
  Instant at;
  std::string by;
};
BOOST_DESCRIBE_STRUCT(CheckValueView, (), (value, state, at, by))

struct RoundCheckView {
  std::string key;
  std::string task;
  std::string kind;
  std::string title;
  std::optional<int> point;
  std::vector<std::string> steps;
  std::string caution;
  std::optional<TaskReadingText> reading;
  std::optional<std::string> quantity_unit;
  std::vector<CheckValueView> last;  // oldest first
};
BOOST_DESCRIBE_STRUCT(RoundCheckView, (), (key, task, kind, title, point, steps, caution, reading, quantity_unit, last))

struct WalkView {
  std::string walk;
  std::string by;
  Instant began_at;
  int answered = 0;
  int of = 0;
};
BOOST_DESCRIBE_STRUCT(WalkView, (), (walk, by, began_at, answered, of))

// An answer that stands in a turn: by whom, when, on which walk.
struct TurnAnswerView : GivenAnswer {
  std::string by;
  Instant at;
  std::string walk;
};
BOOST_DESCRIBE_STRUCT(TurnAnswerView, (GivenAnswer), (by, at, walk))

struct TurnView {
  LocalDate on;
  std::string shift;
  Instant begins_at;
  Instant ends_at;
  std::string state;
  std::vector<WalkView> walks;
  std::vector<TurnAnswerView> answers;
};
BOOST_DESCRIBE_STRUCT(TurnView, (), (on, shift, begins_at, ends_at, state, walks, answers))

struct RoundView {
  std::string rhythm;
  std::vector<RoundCheckView> checks;
  OrNull<TurnView> now;
  std::vector<TurnView> past;
};
BOOST_DESCRIBE_STRUCT(RoundView, (), (rhythm, checks, now, past))

struct MachineRoundsView {
  std::string machine;
  std::string name;
  std::string kind;
  std::string cell;
  std::vector<PointView> points;
  std::vector<RoundView> rounds;
};
BOOST_DESCRIBE_STRUCT(MachineRoundsView, (), (machine, name, kind, cell, points, rounds))

struct RoundsView {
  Instant now;
  std::vector<MachineRoundsView> machines;
};
BOOST_DESCRIBE_STRUCT(RoundsView, (), (now, machines))

}  // namespace hw::service
