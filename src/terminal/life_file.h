#pragma once
// Lives of parts and failures of machines as tables.
//
//   lives     lower, upper, count [, entry]    one row for each part, or for several alike (src/life/observed.h); an
//   empty
//             lower is 0, an empty upper: still good at lower, an empty entry: watched from new
//   groups    group, lower, upper, count [, entry]    the same, of several groups, each with a name
//   failures  time [, machine] [, event]       one row for each failure; event is failure (also where it is empty),
//   entry or
//             end: the machine was watched from, up to this time. A table of one column may have any name, or none

#include <optional>
#include <string>
#include <vector>

#include "libs/values/result.h"
#include "src/life/mean_cumulative.h"
#include "src/life/observed.h"

namespace hw::terminal {

// Errors: what keeps it from being such a table, with file, line and column. Other columns are refused: a misspelt
// entry would be left out in silence.
Result<std::vector<life::Observed>> read_lives_file(const std::string& path);

struct LivesGroup {
  std::string name;
  std::vector<life::Observed> lives;
};
inline constexpr std::size_t groups_most = 500;
// In the order in which they first stand in the table. Errors as above; fewer than two groups, more than groups_most.
Result<std::vector<LivesGroup>> read_groups_file(const std::string& path);

struct WatchedHistory {
  std::string machine;
  life::WatchedMachine watch;   // its end is 0 where the table has none
  bool ends_at_failure = true;  // no end was given
};
// By machine, in the order of their names; failures ascending. Errors as above.
Result<std::vector<WatchedHistory>> read_failures_file(const std::string& path);

}  // namespace hw::terminal
