#pragma once
// A stop: a planned time in which a machine is given to maintenance. It is what its entries say, and nothing else is
// kept of it that could not be made again from them.
//
//   stop agreed        begins it
//   stop changed       another day, shift, other tasks or another note: the whole plan from then on
//   stop withdrawn     it will not be
//   stop closed        the work is over; what was done has an entry "task done" of its own that names the stop
//
// Those after the first count in the order in which they happened (among equals: in which they were kept). Once it is
// closed or withdrawn nothing changes it any more. Whoever changes or closes it names the version that was looked at,
// so that two people cannot undo each other's change without knowing.

#include <optional>
#include <string>
#include <vector>

#include <boost/describe.hpp>

#include "src/service/records.h"

namespace hw::service {

inline constexpr std::string_view stop_agreed = "stop agreed";
inline constexpr std::string_view stop_changed = "stop changed";
inline constexpr std::string_view stop_withdrawn = "stop withdrawn";
inline constexpr std::string_view stop_closed = "stop closed";

enum class StopState { agreed, closed, withdrawn };
BOOST_DESCRIBE_ENUM(StopState, agreed, closed, withdrawn)

struct Withdrawal {
  std::string by;
  Instant at;
  std::string why;
};
BOOST_DESCRIBE_STRUCT(Withdrawal, (), (by, at, why))

struct Closing {
  std::string by;
  Instant at;
  Instant began_at;  // when the machine was given to maintenance ...
  Instant ended_at;  // ... and taken back
  std::string note;
};
BOOST_DESCRIBE_STRUCT(Closing, (), (by, at, began_at, ended_at, note))

// A task that was done in the stop.
struct DoneTask {
  std::string task;
  std::string entry;  // its "task done"
  std::string by;
  Instant at;
  std::optional<AsFound> as_found;
};
BOOST_DESCRIBE_STRUCT(DoneTask, (), (task, entry, by, at, as_found))

struct Stop {
  std::string id;  // of the entry "stop agreed"
  std::string machine;
  StopPlan plan;
  StopState state = StopState::agreed;
  int version = 0;  // counts the entries of the four kinds
  std::string by;   // who agreed it
  Instant at;
  Instant changed_at;  // when the last of its entries happened
  std::vector<DoneTask> done;
  std::optional<Closing> closed;
  std::optional<Withdrawal> withdrawn;
};
BOOST_DESCRIBE_STRUCT(Stop, (), (id, machine, plan, state, version, by, at, changed_at, done, closed, withdrawn))

// What the entries about one stop come to, in whatever order they are given; nothing where none agreed it.
std::optional<Stop> stop_of(std::vector<Entry> entries);

// The order in which stops are shown: by when they begin.
bool begins_before(const Stop& one, const Stop& other);

// Whether a task of that key is among the stop's.
bool has_task(const Stop& stop, std::string_view task);

}  // namespace hw::service
