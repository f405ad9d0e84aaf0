#include "src/service/finding.h"

#include <algorithm>

#include <gtest/gtest.h>

namespace hw::service {
namespace {

Instant minute(int number) { return Instant::from_millis(std::int64_t{1'772'000'000'000} + number * 60'000); }

Entry entry(std::string kind, int happened, EntryBody body = {}) {
  Entry entry;
  entry.id = fmt::format("e{}", happened);
  entry.ordinal = happened;
  entry.kind = std::move(kind);
  entry.machine = "m01";
  entry.by = fmt::format("P{}", happened);
  entry.happened_at = minute(happened);
  entry.body = std::move(body);
  return entry;
}

Entry made(int happened, std::string severity = "watch") {
  EntryBody body;
  body.what = "Oil below the tank";
  body.severity = std::move(severity);
  body.owner = "Ada";
  body.point = 3;
  body.photos = std::vector<PhotoName>{{"p1", "aa"}};
  return entry("finding made", happened, body);
}

Entry settled(int happened, std::string done = "Sealed") {
  EntryBody body;
  body.done = std::move(done);
  return entry("finding settled", happened, body);
}

Finding finding(std::vector<Entry> entries) { return finding_of(std::move(entries)).value().value(); }

TEST(Finding, IsWhatTheEntryThatMadeItSays) {
  const Finding found = finding({made(1, "before next shift")});
  EXPECT_EQ(found.id, "e1");
  EXPECT_EQ(found.machine, "m01");
  EXPECT_EQ(found.what, "Oil below the tank");
  EXPECT_EQ(found.severity, Severity::before_next_shift);
  EXPECT_EQ(found.owner, "Ada");
  EXPECT_EQ(found.point, 3);
  EXPECT_EQ(found.by, "P1");
  EXPECT_EQ(found.at, minute(1));
  EXPECT_EQ(found.photos.size(), 1u);
  EXPECT_FALSE(found.settled);
}

TEST(Finding, AChangeTakesAwayWhatItSaysIsEmptyAndLeavesTheRest) {
  EntryBody first;
  first.due_on = "2026-03-10";
  first.settling_task = "seal";
  first.severity = "at the next stop";
  EntryBody second;
  second.owner = "";
  second.due_on = "";
  const Finding found = finding({made(1), entry("finding changed", 2, first), entry("finding changed", 3, second)});
  EXPECT_EQ(found.severity, Severity::at_the_next_stop);
  EXPECT_EQ(found.task, "seal");
  EXPECT_FALSE(found.owner);
  EXPECT_FALSE(found.due_on);
}

TEST(Finding, SettledAndReopenedStandsAsItHappenedLast) {
  EXPECT_EQ(finding({made(1), settled(2)}).settled->done, "Sealed");
  EXPECT_EQ(finding({made(1), settled(2)}).settled->at, minute(2));
  EXPECT_FALSE(finding({made(1), settled(2), entry("finding reopened", 3)}).settled);
  EXPECT_EQ(finding({made(1), settled(2), settled(5, "Replaced")}).settled->done, "Replaced");
  EXPECT_TRUE(finding({made(1), settled(4), entry("finding reopened", 3)}).settled);
}

TEST(Finding, Property_TheOrderOfArrivalDoesNotMatter) {
  EntryBody change;
  change.severity = "stop the machine";
  change.photos = std::vector<PhotoName>{{"p2", "bb"}, {"p3", "cc"}};
  // The clock of the phone that made it was set while it was away: its entry seems to be later than one of its changes.
  std::vector<Entry> entries{made(3), entry("finding changed", 2, change), settled(4), entry("finding reopened", 5),
                             settled(6, "Replaced")};
  std::vector<int> order{0, 1, 2, 3, 4};
  do {
    std::vector<Entry> arrived;
    for (const int index : order) arrived.push_back(entries[static_cast<std::size_t>(index)]);
    const Finding found = finding(arrived);
    EXPECT_EQ(found.id, "e3");
    EXPECT_EQ(found.severity, Severity::stop_the_machine);
    EXPECT_EQ(found.settled->done, "Replaced");
    ASSERT_EQ(found.photos.size(), 3u);
    EXPECT_EQ(found.photos[2].id, "p3");
  } while (std::next_permutation(order.begin(), order.end()));
}

TEST(Finding, WithoutAnEntryThatMadeItThereIsNone) {
  EXPECT_FALSE(*finding_of({}));
  EXPECT_FALSE(*finding_of({settled(2)}));
}

TEST(Finding, WhatDoesNotReadIsCorrupt) {
  EXPECT_EQ(finding_of({made(1, "bad")}).error().code, ErrorCode::corrupt);
  EntryBody change;
  change.due_on = "soon";
  EXPECT_EQ(finding_of({made(1), entry("finding changed", 2, change)}).error().code, ErrorCode::corrupt);
}

TEST(Finding, TheMostSevereComesFirstThenTheOneThatIsDueFirstThenTheOldest) {
  Finding stop = finding({made(9, "stop the machine")}), watch = finding({made(1)}), soon = finding({made(5)}),
          later = finding({made(2)}), old = finding({made(0)});
  soon.due_on = LocalDate::of(2026, 3, 4);
  later.due_on = LocalDate::of(2026, 3, 9);
  std::vector<Finding> all{watch, later, old, soon, stop};
  std::sort(all.begin(), all.end(), is_more_pressing);
  std::string order;
  for (const Finding& one : all) order += one.id + " ";
  EXPECT_EQ(order, "e9 e5 e2 e0 e1 ");
}

}  // namespace
}  // namespace hw::service
