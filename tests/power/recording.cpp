#include "tests/power/recording.h"

#include <algorithm>

#include "libs/power/power_cut.h"

namespace hw::power {

Recording record(const WritingScene& scene, Commits commits, Reopening& reopening) {
  Recording recording{scene.name, {}, {}, {}, {}};
  Disk disk;
  const MountedDisk mounted(disk, commits);
  Stage stage;
  scene.begin(stage);
  recording.begin = disk.image();
  recording.states.push_back(reopening.look(recording.begin).state);
  disk.begin_record();
  for (const Step& step : scene.steps) {
    const auto done = step(stage);
    EXPECT_TRUE(done) << scene.name << ": " << done.error().message;
    recording.done_after.push_back(disk.record().size());
    recording.states.push_back(state_beside());
  }
  recording.operations = disk.record();
  return recording;
}

Outcome judge(const Kept& kept, const std::vector<std::string>& states, std::size_t confirmed) {
  if (!kept.trouble.empty()) return Outcome::half;
  const auto is_there = [&](std::size_t step) { return step < states.size() && states[step] == kept.state; };
  if (is_there(confirmed) || is_there(confirmed + 1)) return Outcome::right;
  const auto earlier = states.begin() + static_cast<std::ptrdiff_t>(confirmed);
  return std::find(states.begin(), earlier, kept.state) == earlier ? Outcome::half : Outcome::lost;
}

CutCount cut_everywhere(const Recording& recording, std::size_t runs, std::uint64_t seed, Reopening& reopening) {
  CutCount count;
  PowerCut cut(recording.begin);
  const auto& operations = recording.operations;
  const std::size_t moments = operations.size() + 1;
  for (std::size_t moment = 0; moment < moments; ++moment) {
    const auto confirmed =
        static_cast<std::size_t>(std::upper_bound(recording.done_after.begin(), recording.done_after.end(), moment) -
                                 recording.done_after.begin());
    const Operation* under_way = moment < operations.size() ? &operations[moment] : nullptr;
    for (; count.runs < (moment + 1) * runs / moments; ++count.runs) {
      const Kept kept = reopening.look(cut.image(under_way, seed + count.runs));
      const Outcome outcome = judge(kept, recording.states, confirmed);
      if (outcome == Outcome::right) continue;
      ++(outcome == Outcome::lost ? count.lost : count.half);
      if (count.first_trouble.empty()) {
        count.first_trouble = fmt::format("operation {}, seed {}: {}", moment, seed + count.runs,
                                          kept.trouble.empty() ? "a state that was not confirmed" : kept.trouble);
      }
    }
    if (under_way) cut.advance(*under_way);
  }
  return count;
}

}  // namespace hw::power
