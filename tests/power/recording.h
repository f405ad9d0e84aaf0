#pragma once
// A scene played once with everything that it did to the disk, and what cuts of the power leave of it.

#include <string>
#include <vector>

#include "libs/power/mounted_disk.h"
#include "tests/power/kept_state.h"
#include "tests/power/writing_scenes.h"

namespace hw::power {

struct Recording {
  std::string name;
  Image begin;
  std::vector<Operation> operations;
  std::vector<std::size_t> done_after;  // of each step: how many operations there were when it had succeeded
  std::vector<std::string> states;      // before the first step, and after each
};

// Every step has to succeed.
Recording record(const WritingScene& scene, Commits commits, Reopening& reopening);

// How a disk that was opened again compares with what had been confirmed. Of the step that was under way all may be
// there or nothing.
enum class Outcome { right, lost, half };
Outcome judge(const Kept& kept, const std::vector<std::string>& states, std::size_t confirmed);

struct CutCount {
  std::size_t runs = 0, lost = 0, half = 0;
  std::string first_trouble;
};

// So many cuts, spread evenly over the operations; from as many as there are operations on, every one is hit.
CutCount cut_everywhere(const Recording& recording, std::size_t runs, std::uint64_t seed, Reopening& reopening);

}  // namespace hw::power
