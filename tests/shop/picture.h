#pragma once
// Pictures of what a machine does, one mark an hour.
//
//   picture = machine " |" *mark "|"
//   mark    = "#" runs and cuts | "S" spindle turns, no program | "." stands | "o" off | "?" nobody knows

#include <string>
#include <string_view>
#include <vector>

#include "src/counters/machine_model.h"
#include "src/counters/observation.h"

namespace hw::shop {

struct Picture {
  std::string machine;
  std::string marks;
};
Picture parse_picture(std::string_view text);

// A machine with an availability, an execution, a spindle's speed and a path's feed rate.
counters::MachineModel model_of(std::string_view machine);
// The same with one item more: its agent says something new of it.
counters::MachineModel changed_model_of(std::string_view machine);

// The state that a mark stands for, as of `at`: one observation for each item.
std::vector<counters::Observation> state_at(char mark, Instant at);

}  // namespace hw::shop
