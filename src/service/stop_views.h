#pragma once
// What the service tells of stops, in the words and fields of api/openapi.yaml: one struct for one schema there.

#include <optional>
#include <string>
#include <vector>

#include "src/service/views.h"

namespace hw::service {

struct StopTaskView {
  std::string task;
  std::string title;
  std::string assembly;
  std::optional<int> point;
  std::string work;
  std::string skill;
  std::string energy;
  double minutes = 0;
  std::string state;  // planned, done, left undone
  std::optional<AsFound> as_found;
  std::optional<std::string> done_by;
  std::optional<Instant> done_at;
};
BOOST_DESCRIBE_STRUCT(StopTaskView, (),
                      (task, title, assembly, point, work, skill, energy, minutes, state, as_found, done_by, done_at))

struct StopClosedView {
  std::string by;
  Instant at;
  Instant began_at;
  Instant ended_at;
  std::string note;
};
BOOST_DESCRIBE_STRUCT(StopClosedView, (), (by, at, began_at, ended_at, note))

struct StopWithdrawnView {
  std::string by;
  Instant at;
  std::string why;
};
BOOST_DESCRIBE_STRUCT(StopWithdrawnView, (), (by, at, why))

struct StopView {
  std::string id;
  std::string machine;
  LocalDate on;
  std::string shift;
  Instant begins_at;
  Instant ends_at;
  std::string energy;
  double minutes = 0;
  std::string state;
  int version = 0;
  std::vector<StopTaskView> tasks;
  std::string note;
  std::string by;
  Instant at;
  std::optional<StopClosedView> closed;
  std::optional<StopWithdrawnView> withdrawn;
};
BOOST_DESCRIBE_STRUCT(StopView, (),
                      (id, machine, on, shift, begins_at, ends_at, energy, minutes, state, version, tasks, note, by, at,
                       closed, withdrawn))

struct StopsView {
  std::vector<StopView> stops;
};
BOOST_DESCRIBE_STRUCT(StopsView, (), (stops))

// One of a plant's shifts, by the clock on the wall: "06:00".
struct ShiftView {
  std::string name;
  std::string begins;
  std::string ends;
  std::vector<int> weekdays;
};
BOOST_DESCRIBE_STRUCT(ShiftView, (), (name, begins, ends, weekdays))

}  // namespace hw::service
