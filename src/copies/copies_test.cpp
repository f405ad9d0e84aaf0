#include <algorithm>

#include <gtest/gtest.h>

#include "src/copies/copy_name.h"
#include "src/copies/copy_rhythm.h"
#include "src/copies/copy_state.h"
#include "src/copies/retention.h"

namespace hw::copies {
namespace {

Instant at(std::string_view text) { return *parse_instant(text); }
const Zone berlin = *Zone::find("Europe/Berlin");

TEST(CopyName, ReadsAsItWasPrintedAndNothingElseIsOurs) {
  EXPECT_EQ(copy_name(at("2026-11-26T02:00:07.9Z")), "hourwright-2026-11-26T020007Z.copy");
  EXPECT_EQ(parse_copy_name("hourwright-2026-11-26T020007Z.copy"), at("2026-11-26T02:00:07Z"));
  for (const char* other : {"", "hourwright-2026-11-26T020007Z.copy2", "hourwright-2026-13-26T020007Z.copy",
                            "hourwright-2026-11-26T02:007Z.copy", "Hourwright-2026-11-26T020007Z.copy", "photos"}) {
    EXPECT_FALSE(parse_copy_name(other)) << other;
  }
}

// As a folder is after so many nights.
std::vector<Instant> nights(int count, const Retention& retention, Instant first) {
  std::vector<Instant> there;
  for (int night = 0; night < count; ++night) {
    const Instant now = first + Duration::hours(24 * night);
    there.push_back(now);
    for (const Instant one : unwanted(there, retention, berlin, now)) std::erase(there, one);
  }
  return there;
}

TEST(Retention, KeepsDaysWeeksAndMonths) {
  const auto there = nights(3 * 365, {14, 8, 24}, at("2023-11-27T01:00:00Z"));
  // 14 days reach over 3 weeks (Monday to Sunday), so that 8 weeks are 6 more; 8 weeks reach over 3 months.
  const Instant newest = there.back();
  const auto younger = [&](int days) {
    return std::count_if(there.begin(), there.end(),
                         [&](Instant one) { return newest - one < Duration::hours(24 * days); });
  };
  EXPECT_EQ(younger(14), 14);
  EXPECT_GE(there.size(), 14u + 5 + 21);
  EXPECT_LE(there.size(), 14u + 7 + 23);
  EXPECT_LT(there.front(), newest - Duration::hours(24 * 23 * 30));
}

TEST(Retention, NeverTheNewestAndNeverOneOfTheFuture) {
  const Retention nothing{0, 0, 0};
  const Instant now = at("2026-11-26T02:00:00Z");
  EXPECT_TRUE(unwanted({now}, nothing, berlin, now).empty());
  EXPECT_TRUE(unwanted({}, nothing, berlin, now).empty());
  const Instant before = now - Duration::hours(1), ahead = now + Duration::hours(1);
  EXPECT_EQ(unwanted({before, ahead, now}, nothing, berlin, now), std::vector{before});
}

TEST(CopyRhythm, ComesRoundOnceANightAlsoWhereTheComputerWasOff) {
  const CopyHour two{2};
  const auto due = [&](std::string_view good, std::string_view now) {
    return is_copy_due({at(good), {}}, two, berlin, at(now));
  };
  EXPECT_TRUE(is_copy_due({}, two, berlin, at("2026-11-26T12:00:00Z")));
  EXPECT_FALSE(due("2026-11-26T01:00:10Z", "2026-11-26T23:00:00Z"));
  EXPECT_FALSE(due("2026-11-26T01:00:10Z", "2026-11-27T00:59:59Z"));
  EXPECT_TRUE(due("2026-11-26T01:00:10Z", "2026-11-27T01:00:00Z"));
  EXPECT_TRUE(due("2026-11-26T01:00:10Z", "2026-11-27T09:00:00Z"));
  EXPECT_TRUE(due("2036-01-01T00:00:00Z", "2026-11-27T09:00:00Z")) << "a copy of the future";
}

TEST(CopyRhythm, OneThatFailedIsTriedAgainAfterAnHour) {
  const CopyTries tries{at("2026-11-25T01:00:00Z"), at("2026-11-26T01:00:00Z")};
  EXPECT_FALSE(is_copy_due(tries, {2}, berlin, at("2026-11-26T01:59:00Z")));
  EXPECT_TRUE(is_copy_due(tries, {2}, berlin, at("2026-11-26T02:00:00Z")));
}

TEST(CopyState, APersonIsToldWhereNoneIsMadeAndWhenOneFailedOrIsOld) {
  const Instant now = at("2026-11-26T02:00:00Z");
  const auto good = [&](int hours) { return GoodCopy{now - Duration::hours(hours), 1'500'000}; };
  EXPECT_EQ(concern_of({}, now), Concern::none);
  EXPECT_EQ(concern_of({Keeping::none, {}, ""}, now), Concern::not_set_up);
  EXPECT_EQ(concern_of({Keeping::nightly, {}, ""}, now), Concern::none);
  EXPECT_EQ(concern_of({Keeping::nightly, good(48), ""}, now), Concern::none);
  EXPECT_EQ(concern_of({Keeping::nightly, good(49), ""}, now), Concern::old);
  EXPECT_EQ(concern_of({Keeping::nightly, good(1), "no room"}, now), Concern::failed);
  EXPECT_EQ(says({Keeping::nightly, good(1), "no room"}, now),
            "the last copy failed: no room; the last good copy is of 2026-11-26T01:00:00Z, 1.5 MB");
}

}  // namespace
}  // namespace hw::copies
