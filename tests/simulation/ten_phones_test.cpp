// Ten phones in bad Wi-Fi end in the same shop as ten phones in good one.

#include <algorithm>

#include <gtest/gtest.h>

#include "tests/simulation/shop_run.h"

namespace hw::simulation {
namespace {

constexpr std::uint64_t seeds = 3;
constexpr int restarts = 4;

class TenPhones : public testing::TestWithParam<std::uint64_t> {};

template <class What>
bool is(const Act& act) {
  return std::holds_alternative<What>(act.what);
}

// The first line in which two texts differ, to be read by a person.
std::string difference(const std::string& a, const std::string& b) {
  const auto [at, other] = std::mismatch(a.begin(), a.end(), b.begin(), b.end());
  const auto place = static_cast<std::size_t>(at - a.begin());
  const auto begin = place < 200 ? 0 : place - 200;
  return fmt::format("...{}...\n...{}...", a.substr(begin, 400), b.substr(begin, 400));
}

TEST_P(TenPhones, EndAlikeHoweverLateRepeatedAndOutOfOrderTheyWereHeard) {
  const DayPlan plan = plan_days(GetParam());
  const auto messages = by_bad_wifi(plan, GetParam() + 1000);
  EXPECT_GT(messages.size(), plan.acts.size() * 13 / 10);
  const Digest clean = run_shop(plan, in_time(plan));
  const Digest disturbed = run_shop(plan, messages, {.restarts = restarts});
  const auto photos = std::count_if(plan.acts.begin(), plan.acts.end(), is<KeepPhoto>);  // they make no entry
  EXPECT_EQ(std::count(clean.entries.begin(), clean.entries.end(), '\n'),
            static_cast<std::ptrdiff_t>(plan.acts.size()) - photos);
  EXPECT_GT(photos, 3);
  EXPECT_GT(std::count_if(plan.acts.begin(), plan.acts.end(), is<MakeFinding>), 6);
  EXPECT_GT(std::count_if(plan.acts.begin(), plan.acts.end(), is<SettleFinding>), 3);
  EXPECT_TRUE(clean.entries == disturbed.entries) << difference(clean.entries, disturbed.entries);
  EXPECT_TRUE(clean.shown == disturbed.shown) << difference(clean.shown, disturbed.shown);
}

INSTANTIATE_TEST_SUITE_P(Seeds, TenPhones, testing::Range<std::uint64_t>(1, seeds + 1));

// The test of the test: one message that is lost, doubled or changed on its way shows in the digest.
class Planted : public testing::Test {
 protected:
  // The digest when something happens to one message.
  Digest digest_with(std::function<std::vector<Act>(const Act&)> tamper) {
    return run_shop(plan, in_time(plan), {.tamper = std::move(tamper)});
  }
  static const AnswerChecks* single_answer(const Act& act) {
    const auto* answers = std::get_if<AnswerChecks>(&act.what);
    return answers && !answers->others ? answers : nullptr;
  }
  // The last act of a kind.
  template <class What>
  std::string last_id() const {
    return std::find_if(plan.acts.rbegin(), plan.acts.rend(), is<What>)->id;
  }
  Digest digest_without(const std::string& id) {
    return digest_with([&](const Act& act) { return act.id == id ? std::vector<Act>{} : std::vector{act}; });
  }
  // The last answer that is the only one to its check on its walk.
  const Act& victim() const {
    const auto is_only = [&](const Act& act) {
      const auto* answer = single_answer(act);
      return answer && std::count_if(plan.acts.begin(), plan.acts.end(), [&](const Act& other) {
                         const auto* another = single_answer(other);
                         return another && another->walk == answer->walk &&
                                another->answers[0].check == answer->answers[0].check;
                       }) == 1;
    };
    return *std::find_if(plan.acts.rbegin(), plan.acts.rend(), is_only);
  }

  const DayPlan plan = plan_days(7);
  const Digest clean = run_shop(plan, in_time(plan));
};

TEST_F(Planted, ALossIsSeen) {
  const Digest lost = digest_without(victim().id);
  EXPECT_NE(lost.entries, clean.entries);
  EXPECT_NE(lost.shown, clean.shown);
}

TEST_F(Planted, ALossAboutAFindingIsSeen) {
  const std::string change = last_id<ChangeFinding>(), settlement = last_id<SettleFinding>();
  for (const std::string& id : {change, settlement}) {
    const Digest lost = digest_without(id);
    EXPECT_NE(lost.entries, clean.entries) << id;
    EXPECT_NE(lost.shown, clean.shown) << id;
  }
}

TEST_F(Planted, ALostPhotoIsSeenThoughItMakesNoEntry) {
  const Digest lost = digest_without(last_id<KeepPhoto>());
  EXPECT_EQ(lost.entries, clean.entries);
  EXPECT_NE(lost.shown, clean.shown);
}

TEST_F(Planted, AFindingThatIsFollowedUpAtAnotherMomentIsSeen) {
  const std::string id = last_id<SettleFinding>();
  const Digest early = digest_with([&](const Act& act) {
    Act moved = act;
    if (act.id == id) moved.at = moved.at - Duration::seconds(30);
    return std::vector{moved};
  });
  EXPECT_NE(early.entries, clean.entries);
  EXPECT_NE(early.shown, clean.shown);
}

TEST_F(Planted, ADoublingIsSeen) {
  const Digest doubled = digest_with([&](const Act& act) {
    if (act.id != victim().id) return std::vector{act};
    Act again = act;
    again.id = shop::id_of(999'999);
    return std::vector{act, again};
  });
  EXPECT_NE(doubled.entries, clean.entries);
}

TEST_F(Planted, AnotherMomentIsSeen) {
  const Digest late = digest_with([&](const Act& act) {
    Act moved = act;
    if (act.id == victim().id) moved.at = moved.at - Duration::seconds(60);
    return std::vector{moved};
  });
  EXPECT_NE(late.entries, clean.entries);
}

}  // namespace
}  // namespace hw::simulation
