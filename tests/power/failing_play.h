#pragma once
// A scene played while something of the disk fails, by somebody who sends once more what was refused.

#include <optional>
#include <string>
#include <vector>

#include "libs/power/disk.h"
#include "tests/power/writing_scenes.h"

namespace hw::power {

struct FailingPlay {
  bool has_failed = false;        // the fault was met
  std::size_t confirmed = 0;      // steps that had succeeded, at once or when they were sent again
  std::optional<Error> refusal;   // the first
  bool is_refused_again = false;  // and nothing was sent after that
  std::optional<Error> failure;   // why the store keeps nothing more, as it says
  std::optional<bool> is_ready;   // as GET /readyz says; nothing where no shop is open
  bool reads = true;              // in the end, while the fault lasts
  Image begin;
  std::vector<Operation> operations;  // until the server was ended
  Image left;                         // after an orderly end, when the disk worked again
  std::array<int, accesses.size()> met{};
};

FailingPlay play(const WritingScene& scene, std::optional<Fault> fault);

}  // namespace hw::power
