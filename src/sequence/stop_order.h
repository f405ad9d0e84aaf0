#pragma once
// The order of work inside one stop: safe first, then short.
//
// A machine comes out of production and goes back to it. Its energy states (ISO 14118) lie in a row: in production,
// powered at rest, isolated; from one to its neighbour is one change, and each change takes people time and attention,
// isolating most of all. Every work needs one state and may need others to be done before it (drain before filter,
// refill before restart). Sought is, among the orders with the fewest changes, one with the shortest walk.
//
// Where one stands is a place on the machine's outline, 0 to below 4 sides (walking_order.h). What is passed and can be
// done is done on the way: it never makes a walk longer. So whoever walks on needs to look only at the nearest work to
// each side, and the number of cases stays small. Fewest changes: a breadth-first search over states, doing all that
// can be done in each. Shortest walk: A* (Hart, Nilsson and Raphael 1968) over what is done, place and state, leaving
// out what would need more changes. Exact; how long it takes depends on how tangled "after" is: milliseconds for a
// usual stop.

#include <vector>

#include "libs/values/result.h"
#include "src/catalogue/work_words.h"

namespace hw::sequence {

struct StopWork {
  catalogue::EnergyState state = catalogue::EnergyState::powered_at_rest;
  double place = 0;        // on the outline, 0 to below 4 sides
  double minutes = 0;      // hands on, 0 or more
  std::vector<int> after;  // places in the list of works that must be done before
  bool is_alone = false;   // nobody else may work at the machine meanwhile
};

struct StopOrder {
  std::vector<int> works;  // in the order in which to do them
  int state_changes = 0;   // from production and back to it
  double walk_length = 0;  // sides, from the start; reaching in is the same in every order and left out
};

inline constexpr std::size_t works_max = 60;

// `start_place`: where one begins. Errors: too_large beyond works_max; bad_input for an `after` that is no work, a
// place off the outline, or works that wait for each other.
Result<StopOrder> order_stop(const std::vector<StopWork>& works, double start_place);

// One work as one of two people does it.
struct Share {
  int work = 0;
  int person = 0;  // 0 or 1
  double begin_minutes = 0;
};

// Two people do the works of an order: whoever is free first takes the next that may begin. Both wait for a change of
// state, for works done alone and for what must come before. Never later than one person would be. By rising begin.
std::vector<Share> share_between_two(const std::vector<StopWork>& works, const StopOrder& order);

}  // namespace hw::sequence
