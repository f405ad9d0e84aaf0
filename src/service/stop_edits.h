#pragma once
// What people enter about stops, in the fields of api/openapi.yaml.

#include <optional>
#include <string>
#include <vector>

#include "src/service/edits.h"
#include "src/service/stop.h"

namespace hw::service {

// The most tasks of one stop: as many as one order of work is computed for.
inline constexpr std::size_t stop_tasks_max = 60;

struct StopEdit : Signature {
  LocalDate on;
  std::string shift;               // its name; of a plant without shifts empty
  std::vector<std::string> tasks;  // their keys
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(StopEdit, (Signature), (on, shift, tasks, note))

// What is left out stays.
struct StopChange : Signature {
  int version = 0;  // that the person saw
  std::optional<LocalDate> on;
  std::optional<std::string> shift;
  std::optional<std::vector<std::string>> tasks;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(StopChange, (Signature), (version, on, shift, tasks, note))

struct StopWithdraw : Signature {
  std::string why;
};
BOOST_DESCRIBE_STRUCT(StopWithdraw, (Signature), (why))

// What the stop really used, all of it; `id` is that of the entry about the stores.
struct UsedParts {
  std::string id;
  std::vector<MovedPart> lines;
};
BOOST_DESCRIBE_STRUCT(UsedParts, (), (id, lines))

// A task that was done in a stop that is closed.
struct StopDone {
  std::string id;  // of its own entry "task done"
  std::string task;
  std::optional<std::string> by;  // whoever closes, where it is not said
  std::optional<Instant> at;      // when, by the device's clock; the stop's end, where it is not said
  std::optional<AsFound> as_found;
  std::optional<std::string> note;
  std::optional<double> minutes;
  std::optional<std::vector<ReadValue>> readings;
  std::optional<double> quantity;  // of a top up
};
BOOST_DESCRIBE_STRUCT(StopDone, (), (id, task, by, at, as_found, note, minutes, readings, quantity))

struct StopClose : Signature {
  int version = 0;
  Instant began_at;  // by the device's clock, as is ended_at
  Instant ended_at;
  std::optional<std::string> note;
  std::vector<StopDone> done;  // whatever of the stop's tasks is not among them is left undone
  std::optional<UsedParts> used = {};
};
BOOST_DESCRIBE_STRUCT(StopClose, (Signature), (version, began_at, ended_at, note, done, used))

// Each refuses (bad_input, naming the field) an id that is no UUID, a text that is missing or too long, tasks that are
// none, too many or named twice; a change that changes nothing; at a closing also an end before its beginning, an id
// that stands twice, minutes outside 0 to 10,080 and a quantity below zero.
Result<void> check(const StopEdit& edit);
Result<void> check(const StopChange& edit);
Result<void> check(const StopWithdraw& edit);
Result<void> check(const StopClose& edit);

}  // namespace hw::service
