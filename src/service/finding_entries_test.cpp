#include "src/service/finding_entries.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

Finding raised_finding(std::string what = "Oil below the tank", Severity severity = Severity::watch) {
  Finding finding;
  finding.id = "f1";
  finding.what = std::move(what);
  finding.severity = severity;
  return finding;
}

constexpr const char* who_decides = "; the lead, or the person whom the shop names, decides whether it runs";

TEST(FindingEntries, SayWhatWasFoundAndWhoDecidesWhetherItRuns) {
  Entry entry;
  entry.id = "f1";
  FindingEdit edit;
  edit.what = "Oil below the tank";
  edit.severity = Severity::at_the_next_stop;
  edit.owner = "";
  tell_made(entry, edit);
  EXPECT_EQ(entry.says, "finding (at the next stop): Oil below the tank");
  EXPECT_EQ(entry.body.finding, "f1");
  EXPECT_FALSE(entry.body.owner);
  EXPECT_FALSE(entry.body.photos);
  edit.severity = Severity::stop_the_machine;
  tell_made(entry, edit);
  EXPECT_EQ(entry.says, std::string("finding (stop the machine): Oil below the tank") + who_decides);
}

TEST(FindingEntries, SayEachThingThatChanged) {
  Entry entry;
  FindingChange change;
  change.owner = "";
  change.due_on = "2026-03-10";
  change.photos = std::vector<PhotoName>{{"p", "s"}};
  tell_changed(entry, raised_finding(), change);
  EXPECT_EQ(entry.says, "Oil below the tank: no owner; due day 2026-03-10; a photo");
  FindingChange raised;
  raised.severity = Severity::stop_the_machine;
  tell_changed(entry, raised_finding(), raised);
  EXPECT_EQ(entry.says, std::string("Oil below the tank: severity stop the machine") + who_decides);
  FindingChange note;
  note.note = "ordered";
  tell_changed(entry, raised_finding(), note);
  EXPECT_EQ(entry.says, "Oil below the tank: a note");
  EXPECT_EQ(entry.note, "ordered");
}

TEST(FindingEntries, NameALongFindingByItsBeginning) {
  Entry entry;
  FindingSettle settle;
  settle.done = "Sealed";
  std::string umlauts;
  for (int i = 0; i < 60; ++i) umlauts += "ö";
  tell_settled(entry, raised_finding("x" + umlauts), settle);
  EXPECT_EQ(entry.says, "x" + umlauts.substr(0, 78) + "...: settled: Sealed");
  tell_settled(entry, raised_finding("first line\nsecond"), settle);
  EXPECT_EQ(entry.says, "first line: settled: Sealed");
}

TEST(FindingEntries, OneThatIsOpenAgainSaysWhyAndWhoDecides) {
  Entry entry;
  FindingReopen reopen;
  reopen.why = "It drips";
  tell_reopened(entry, raised_finding("Oil", Severity::stop_the_machine), reopen);
  EXPECT_EQ(entry.says,
            "Oil: open again: It drips; where it stops the machine, the lead, or the person whom the shop names, "
            "decides whether it runs");
}

}  // namespace
}  // namespace hw::service
