// An access to the disk fails, once or from then on, in every scene in which the service writes: each access of each
// kind, where HOURWRIGHT_DISK_ERRORS is large enough.

#include <cstdlib>

#include <fmt/format.h>

#include "libs/power/power_cut.h"
#include "tests/power/failing_play.h"
#include "tests/power/recording.h"

namespace hw::power {
namespace {

// What fails, and what came of it over all scenes.
struct Row {
  Access access;
  Failure failure;
  Failing failing;
  std::size_t runs = 0, refused = 0, went_on = 0, stopped = 0, lost = 0, half = 0;
};

std::vector<Row> rows_of_all_kinds() {
  std::vector<Row> rows;
  for (const Failing failing : {Failing::once, Failing::for_ever}) {
    for (const Access access : accesses) rows.push_back({access, Failure::broken, failing});
    rows.push_back({Access::write, Failure::full, failing});
  }
  return rows;
}

// At most so many accesses of each kind, spread over the scene.
int accesses_max() {
  const char* text = std::getenv("HOURWRIGHT_DISK_ERRORS");
  return text ? std::atoi(text) : 1;
}

class DiskErrors : public ::testing::Test {
 protected:
  void fail_everywhere(const WritingScene& scene, std::vector<Row>& rows) {
    states = record(scene, Commits::as_asked, reopening).states;
    const auto met = play(scene, {}).met;
    for (Row& row : rows) {
      const int there = met[static_cast<std::size_t>(row.access)];
      const int tries = std::min(there, accesses_max());
      for (int n = 0; n < tries; ++n) {
        // The middles of as many equal pieces.
        const Fault fault{row.access, 1 + (2 * n + 1) * there / (2 * tries), row.failing, row.failure};
        SCOPED_TRACE(fmt::format("{}: {} {} fails{}", scene.name, print(fault.access), fault.number,
                                 fault.failing == Failing::once ? "" : " from then on"));
        judge_play(play(scene, fault), fault, row);
      }
    }
  }

  void judge_play(const FailingPlay& play, const Fault& fault, Row& row) {
    ++row.runs;
    row.refused += play.refusal.has_value();
    row.stopped += play.failure.has_value();
    row.went_on += play.confirmed + 1 == states.size();
    expect_it_says_so(play, fault);
    judge_disk(play.left, play.confirmed, row);
    // What a failed sync has left unsynced may be gone when the power fails later.
    PowerCut cut(play.begin);
    for (const Operation& operation : play.operations) cut.advance(operation);
    for (std::uint64_t seed = 0; fault.access == Access::sync && seed < 5; ++seed) {
      judge_disk(cut.image(nullptr, seed), play.confirmed, row);
    }
  }

  static void expect_it_says_so(const FailingPlay& play, const Fault& fault) {
    if (play.refusal) {
      EXPECT_TRUE(play.refusal->code == ErrorCode::disk_full ||
                  (fault.access == Access::open && play.refusal->code == ErrorCode::not_found))
          << play.refusal->message;
    }
    if (fault.failing == Failing::once && fault.failure == Failure::full) {
      EXPECT_FALSE(play.is_refused_again) << play.refusal->message;
      EXPECT_FALSE(play.failure) << "there is room again";
    }
    EXPECT_FALSE(play.failure && play.is_ready == true);
    EXPECT_TRUE(play.reads || fault.access == Access::open || fault.access == Access::read);
  }

  void judge_disk(const Image& image, std::size_t confirmed, Row& row) {
    const Kept kept = reopening.look(image);
    const Outcome outcome = judge(kept, states, confirmed);
    row.lost += outcome == Outcome::lost;
    row.half += outcome == Outcome::half;
    EXPECT_EQ(outcome, Outcome::right) << confirmed << " confirmed; " << kept.trouble;
  }

  Reopening reopening;
  std::vector<std::string> states;
};

TEST_F(DiskErrors, AreToldAndLeaveAllThatWasConfirmedAndNothingByHalf) {
  auto rows = rows_of_all_kinds();
  for (const WritingScene& scene : writing_scenes()) {
    if (scene.name == "closed and opened") continue;  // opening at a fault is in "shop founded"
    fail_everywhere(scene, rows);
  }
  fmt::print("| {:<28} | {:>5} | {:>7} | {:>7} | {:>7} | {:>4} | {:>4} |\n", "what fails", "runs", "refused", "went on",
             "stopped", "lost", "half");
  for (const Row& row : rows) {
    const auto what = fmt::format("{}{}, {}", print(row.access), row.failure == Failure::full ? " (no room)" : "",
                                  row.failing == Failing::once ? "once" : "from then on");
    fmt::print("| {:<28} | {:>5} | {:>7} | {:>7} | {:>7} | {:>4} | {:>4} |\n", what, row.runs, row.refused, row.went_on,
               row.stopped, row.lost, row.half);
    EXPECT_GT(row.runs, 0u);
  }
}

// The one that matters most: what was not synced must never be built on.
TEST_F(DiskErrors, AfterAFailedSyncNothingMoreIsKeptUntilTheNextStart) {
  for (const WritingScene& scene : writing_scenes()) {
    if (scene.name != "task done, undone") continue;
    const auto failing = play(scene, Fault{Access::sync, 1, Failing::once});
    ASSERT_TRUE(failing.has_failed && failing.refusal);
    EXPECT_EQ(failing.refusal->saying->code, "disk-failed");
    EXPECT_TRUE(failing.is_refused_again);
    EXPECT_EQ(failing.confirmed, 0u);
    ASSERT_TRUE(failing.failure);
    EXPECT_EQ(failing.is_ready, false);
    EXPECT_TRUE(failing.reads);
    EXPECT_EQ(reopening.look(failing.left).trouble, "");
  }
}

}  // namespace
}  // namespace hw::power
