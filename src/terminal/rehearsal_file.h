#pragma once
// A year of a shop as JSON (docs/methods/rehearsal.md has an example), with the changes to be tried.
//
//   {"machines": [{"key", "kind", "counters": ["operating"],
//                  "use": [{"mean": [8, 8, 8, 8, 8, 0, 0], "scatter": 0.2}],      either this, one for each counter
//                  "past": [{"weekday": 1, "used": [8.2]}],                       or days to draw from
//                  "standing_per_hour": 80,
//                  "tasks": [{"key", "minutes", "energy": "isolated", "planned_cost",
//                             "intervals": [{"counter", "length", "heads_up", "used"}],     without counter: days
//                             "part": {"counter", "life", "age", "failed_cost", "failed_standing_hours"}}]}],
//    "lives": [{"key", "shape", "scale"}],            or, instead of the two, "believed": [{"shape", "scale", "share"}]
//    "isolated": {"hours", "cost"}, "powered_at_rest": {"hours", "cost"}, "labour_per_hour": 60,
//    "days": 365, "first_weekday": 1, "closed": [],
//    "changes": [{"kind", "task", "counter", "interval"}], "years": 1000, "seed": 1}
//
// What may be left out: days, first_weekday and closed (as above); money, hours, heads_up, used and age (0); energy
// (isolated); lives, part and changes (none).

#include <string_view>
#include <vector>

#include "src/rehearsal/change.h"

namespace hw::terminal {

inline constexpr int rehearsed_years_max = 1'000'000;

struct RehearsalFile {
  rehearsal::ShopYear shop;  // checked
  std::vector<rehearsal::Change> changes;
  int years = 1000;  // 2 to rehearsed_years_max
  std::uint64_t seed = 1;
};

// Errors: bad_input for what is no such JSON, an unknown field included, and what rehearsal::check refuses.
Result<RehearsalFile> parse_rehearsal(std::string_view text);

}  // namespace hw::terminal
