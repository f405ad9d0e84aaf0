#pragma once
// Rounds: what the operator looks at, reads, cleans and tops up at a machine before start-up, each shift, day or week,
// in walking order.
//
// A round is not kept anywhere: it follows from the machine's tasks. Those of the operator's that a trigger calls for
// before every start-up, every shift, every day or every week make that round's checks; of several such triggers the
// most frequent decides. A task that comes round more seldom, that a counter alone calls for, or that is a
// technician's, belongs to a stop.
//
//   work       checks
//   inspect    one reading for each of the task's readings; without any, one look
//   measure    the same
//   clean      one clean, then one reading for each of its readings
//   top up     one top up, then its readings
//   others     one look, then its readings

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "src/catalogue/task.h"

namespace hw::catalogue {

// Most frequent first; before start-up is called for by the start, not by the clock.
enum class Rhythm { before_start_up, shift, day, week };
enum class CheckKind { look, reading, clean, top_up };

// "before start-up", "shift", "day", "week"; "look", "reading", "clean", "top up".
std::string_view word_of(Rhythm rhythm);
std::string_view word_of(CheckKind kind);
Result<Rhythm> parse_rhythm(std::string_view word);
Result<CheckKind> parse_check_kind(std::string_view word);

struct Check {
  std::string key;   // within its round and stable: the task's key, for a reading "<task>/<what>"
  std::string task;  // the task's key
  CheckKind kind = CheckKind::look;
  std::string title;
  std::optional<int> point;  // where one stands; none: from the operator's place
  std::vector<std::string> steps;
  std::string caution;
  std::optional<TaskReading> reading;        // of a reading
  std::optional<std::string> quantity_unit;  // of a top up: the task's, else its first part's, else none
  bool operator==(const Check&) const = default;
};

struct Round {
  std::string machine;
  Rhythm rhythm = Rhythm::shift;
  std::vector<Check> checks;  // in walking order, never empty
  bool operator==(const Round&) const = default;
};

// The rhythm in which an operator walks past this task; none where it belongs to no round.
std::optional<Rhythm> rhythm_of(const Task& task);

// The rounds that follow from a machine's tasks, the most frequent first; rhythms without a check make no round.
// `walk` is the numbers of the machine's points in walking order: checks without a point come first, those at a point
// that is not in `walk` last, checks at one point in the order of the tasks.
std::vector<Round> rounds_of(std::string_view machine, const std::vector<Task>& tasks, const std::vector<int>& walk);

}  // namespace hw::catalogue
