// What is not as it should be, from its being found to its being settled.

#include <gmock/gmock.h>

#include "src/service/open_findings.h"
#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

using service::Severity;
using testing::HasSubstr;
using testing::StartsWith;

service::FindingEdit oil(int id, Severity severity = Severity::before_next_shift) {
  service::FindingEdit edit;
  edit.id = id_of(id);
  edit.by = "Ada";
  edit.what = "Oil below the tank";
  edit.severity = severity;
  return edit;
}

Result<service::FindingView> make(Scene& scene, const service::FindingEdit& edit, std::string_view machine = "mill1") {
  return make_finding(scene.shop(), machine, edit, scene.now);
}

Result<service::FindingView> settle(Scene& scene, int finding, int id, std::string done = "Sealed") {
  service::FindingSettle edit;
  edit.id = id_of(id);
  edit.by = "Bo";
  edit.done = std::move(done);
  return settle_finding(scene.shop(), id_of(finding), edit, scene.now);
}

Result<service::FindingView> reopen(Scene& scene, int finding, int id) {
  service::FindingReopen edit;
  edit.id = id_of(id);
  edit.by = "Ada";
  edit.why = "It drips again";
  return reopen_finding(scene.shop(), id_of(finding), edit, scene.now);
}

Result<service::FindingView> change(Scene& scene, int finding, service::FindingChange edit, int id) {
  edit.id = id_of(id);
  edit.by = "Ada";
  return change_finding(scene.shop(), id_of(finding), edit, scene.now);
}

std::vector<std::string> on_floor(const Scene& scene, std::string_view machine = "mill1") {
  return must(show_floor_machine(scene.shop(), machine, scene.now)).findings;
}

std::vector<std::string> kinds_of(const Scene& scene, int finding) {
  std::vector<std::string> kinds;
  for (const auto& entry : must(show_finding(scene.shop(), id_of(finding))).entries) kinds.push_back(entry.kind);
  return kinds;
}

TEST(Findings, AreOnTheFloorAndAtTheMachineUntilTheyAreSettled) {
  Scene scene;
  must(make(scene, oil(1, Severity::watch)));
  must(make(scene, oil(2, Severity::stop_the_machine)));
  EXPECT_EQ(on_floor(scene), (std::vector<std::string>{"stop the machine", "watch"}));
  EXPECT_EQ(severities_of(*scene.shop().machines()[0]), on_floor(scene));
  EXPECT_TRUE(on_floor(scene, "mill2").empty());
  ASSERT_EQ(scene.machine().findings.size(), 2u);
  EXPECT_EQ(scene.machine().findings[0].id, id_of(2));
  must(settle(scene, 2, 3));
  EXPECT_EQ(on_floor(scene), std::vector<std::string>{"watch"});
  scene.end_and_reopen();
  EXPECT_EQ(on_floor(scene), std::vector<std::string>{"watch"});
  must(settle(scene, 1, 4));
  EXPECT_TRUE(on_floor(scene).empty());
  EXPECT_TRUE(scene.machine().findings.empty());
}

TEST(Findings, WhoeverShowsTheMachineIsToldOfEachChange) {
  Scene scene;
  const auto version = [&] { return scene.shop().machines()[0]->tasks_version; };
  auto before = version();
  must(make(scene, oil(1)));
  EXPECT_GT(version(), before);
  before = version();
  must(settle(scene, 1, 2));
  EXPECT_GT(version(), before);
}

TEST(Findings, KeepAllThatThePhoneSaidAndTheCountersOfThatMoment) {
  Scene scene;
  scene.play("mill1 |##|");
  auto edit = oil(1);
  edit.owner = "Bo";
  edit.due_on = LocalDate::of(2026, 3, 4);
  edit.task = "grease";
  edit.point = 1;
  edit.check = "look";
  edit.walk = id_of(77);
  edit.photos = std::vector<service::PhotoName>{{id_of(50), std::string(64, 'a')}};
  const auto made = must(make(scene, edit));
  EXPECT_EQ(made.state, "open");
  EXPECT_EQ(made.severity, "before next shift");
  EXPECT_EQ(*made.owner, "Bo");
  EXPECT_EQ(*made.due_on, LocalDate::of(2026, 3, 4));
  EXPECT_EQ(*made.task, "grease");
  EXPECT_EQ(made.point, 1);
  EXPECT_EQ(made.check, "look");
  EXPECT_EQ(made.walk, id_of(77));
  EXPECT_EQ(made.photos.at(0).id, id_of(50));
  const auto entry = must(show_finding(scene.shop(), id_of(1))).entries.at(0);
  EXPECT_EQ(entry.says, "finding (before next shift): Oil below the tank");
  EXPECT_EQ(entry.finding, id_of(1));
  EXPECT_NEAR(entry.counters.at("operating"), 2, 1e-9);
  EXPECT_EQ(entry.photos->at(0).sha256, std::string(64, 'a'));
}

TEST(Findings, ThatStopTheMachineSayWhoDecides) {
  Scene scene;
  must(make(scene, oil(1, Severity::stop_the_machine)));
  EXPECT_THAT(must(show_finding(scene.shop(), id_of(1))).entries.at(0).says,
              HasSubstr("the lead, or the person whom the shop names, decides whether it runs"));
}

TEST(Findings, AreChangedSettledAndReopenedWithTheirHistory) {
  Scene scene;
  must(make(scene, oil(1)));
  service::FindingChange first;
  first.severity = Severity::at_the_next_stop;
  first.owner = "Bo";
  first.due_on = "2026-03-10";
  first.task = "grease";
  first.note = "ordered a seal";
  const auto changed = must(change(scene, 1, first, 2));
  EXPECT_EQ(changed.severity, "at the next stop");
  EXPECT_EQ(*changed.due_on, LocalDate::of(2026, 3, 10));
  service::FindingChange second;
  second.owner = "";
  second.due_on = "";
  second.task = "";
  const auto taken_away = must(change(scene, 1, second, 3));
  EXPECT_FALSE(taken_away.owner);
  EXPECT_FALSE(taken_away.due_on);
  EXPECT_FALSE(taken_away.task);
  EXPECT_EQ(taken_away.severity, "at the next stop");
  const auto settled = must(settle(scene, 1, 4));
  EXPECT_EQ(settled.state, "settled");
  EXPECT_EQ(settled.settled_by, "Bo");
  EXPECT_EQ(settled.settled_at, scene.now);
  EXPECT_EQ(settled.done, "Sealed");
  const auto reopened = must(reopen(scene, 1, 5));
  EXPECT_EQ(reopened.state, "open");
  EXPECT_FALSE(reopened.done);
  EXPECT_EQ(kinds_of(scene, 1), (std::vector<std::string>{"finding made", "finding changed", "finding changed",
                                                          "finding settled", "finding reopened"}));
  const auto entries = must(show_finding(scene.shop(), id_of(1))).entries;
  EXPECT_EQ(entries[1].says,
            "Oil below the tank: severity at the next stop; owner Bo; due day 2026-03-10; task grease");
  EXPECT_EQ(entries[1].note, "ordered a seal");
  EXPECT_EQ(entries[2].says, "Oil below the tank: no owner; no due day; no task");
  EXPECT_EQ(entries[3].says, "Oil below the tank: settled: Sealed");
  EXPECT_THAT(entries[4].says,
              StartsWith("Oil below the tank: open again: It drips again; where it stops the machine, "));
}

TEST(Findings, TheSameIdFiveTimesIsOneEntryAndAnsweredAsItStandsNow) {
  Scene scene;
  for (int i = 0; i < 5; ++i) must(make(scene, oil(1)));
  for (int i = 0; i < 5; ++i) must(settle(scene, 1, 2));
  EXPECT_EQ(must(make(scene, oil(1))).state, "settled");
  EXPECT_EQ(scene.machine().entries.size(), 2u);
}

TEST(Findings, AnIdThatWasUsedForSomethingElseIsAConflict) {
  Scene scene;
  must(make(scene, oil(1)));
  must(make(scene, oil(2)));
  must(settle(scene, 1, 3));
  EXPECT_EQ(settle(scene, 2, 3).error().code, ErrorCode::conflict);
  EXPECT_EQ(reopen(scene, 1, 3).error().code, ErrorCode::conflict);
  EXPECT_EQ(make(scene, oil(1), "mill2").error().code, ErrorCode::conflict);
  must(scene.done("filter", 4));
  EXPECT_EQ(make(scene, oil(4)).error().code, ErrorCode::conflict);
  EXPECT_EQ(must(show_finding(scene.shop(), id_of(2))).finding.state, "open");
}

// Somebody settled it with a phone that came back hours later; meanwhile somebody else had settled it and reopened it.
TEST(Findings, WhatArrivesLateCountsWhenItHappened) {
  Scene scene;
  must(make(scene, oil(1)));
  service::FindingSettle late;
  late.id = id_of(2);
  late.by = "Bo";
  late.done = "Wiped it";
  late.at = scene.now + Duration::seconds(600);
  scene.now = scene.now + Duration::hours(1);
  must(settle(scene, 1, 3, "Sealed"));
  scene.now = scene.now + Duration::hours(1);
  must(reopen(scene, 1, 4));
  scene.now = scene.now + Duration::hours(1);
  late.sent_at = scene.now;
  EXPECT_EQ(must(settle_finding(scene.shop(), id_of(1), late, scene.now)).state, "open");
  EXPECT_EQ(kinds_of(scene, 1).size(), 4u);
  must(settle(scene, 1, 5, "Replaced the seal"));
  EXPECT_EQ(must(show_finding(scene.shop(), id_of(1))).finding.done, "Replaced the seal");
  EXPECT_EQ(settle(scene, 1, 6, "Again").value().done, "Again");
}

TEST(Findings, ATaskThatIsNotThereIsRefusedAtTheDeskAndLeftOutFromAPhone) {
  Scene scene;
  auto edit = oil(1);
  edit.task = "no-such";
  const auto made = must(make(scene, edit));
  EXPECT_FALSE(made.task);
  EXPECT_THAT(must(show_finding(scene.shop(), id_of(1))).entries.at(0).says,
              HasSubstr("without the task that was to settle it: mill1 has no task \"no-such\""));
  must(retire_task(scene.shop(), "mill1", "grease", {id_of(9), "Ada", {}, {}}, scene.now));
  for (const char* task : {"no-such", "grease"}) {
    service::FindingChange link;
    link.task = task;
    const auto refused = change(scene, 1, link, 2);
    EXPECT_EQ(refused.error().code, ErrorCode::bad_input) << task;
    EXPECT_THAT(refused.error().message, HasSubstr("task: "));
  }
  EXPECT_EQ(kinds_of(scene, 1).size(), 1u);
}

TEST(Findings, WhatCannotBeIsRefusedAndLeavesNoEntry) {
  Scene scene;
  auto blank = oil(1);
  blank.what = " ";
  EXPECT_EQ(make(scene, blank).error().code, ErrorCode::bad_input);
  must(make(scene, oil(1)));
  service::FindingChange nothing;
  EXPECT_THAT(change(scene, 1, nothing, 2).error().message, HasSubstr("changes nothing"));
  nothing.due_on = "tomorrow";
  EXPECT_THAT(change(scene, 1, nothing, 2).error().message, HasSubstr("due_on: "));
  EXPECT_THAT(settle(scene, 1, 2, "").error().message, HasSubstr("done: "));
  EXPECT_EQ(settle(scene, 77, 2).error().code, ErrorCode::not_found);
  EXPECT_EQ(show_finding(scene.shop(), id_of(77)).error().code, ErrorCode::not_found);
  EXPECT_EQ(scene.machine().entries.size(), 1u);
}

TEST(Findings, OnAMachineThatTheShopDoesNotHaveAreKeptForTheLead) {
  Scene scene;
  const auto made = must(make(scene, oil(1), "mill9"));
  EXPECT_EQ(made.machine, "mill9");
  EXPECT_EQ(must(show_findings(scene.shop(), {})).findings.size(), 1u);
  EXPECT_EQ(must(show_findings(scene.shop(), {"mill9"})).findings.size(), 1u);
  const auto entry = must(show_finding(scene.shop(), id_of(1))).entries.at(0);
  EXPECT_THAT(*entry.stray, HasSubstr("mill9"));
  EXPECT_TRUE(entry.counters.empty());
  EXPECT_EQ(must(show_logbook(scene.shop(), {})).strays, 1);
  must(settle(scene, 1, 2));
  EXPECT_EQ(must(show_logbook(scene.shop(), {})).strays, 1) << "that it is settled is no stray of its own";
  EXPECT_EQ(must(show_findings(scene.shop(), {"mill1"})).findings.size(), 0u);
  EXPECT_EQ(show_findings(scene.shop(), {"mill8"}).error().code, ErrorCode::not_found);
  EXPECT_EQ(make(scene, oil(3), std::string(61, 'm')).error().code, ErrorCode::bad_input);
}

TEST(Findings, AreListedTheMostSevereFirstAndSettledOnesApart) {
  Scene scene;
  must(make(scene, oil(1, Severity::watch)));
  must(make(scene, oil(2, Severity::stop_the_machine), "mill2"));
  auto due = oil(3, Severity::watch);
  due.due_on = LocalDate::of(2026, 3, 5);
  must(make(scene, due));
  must(make(scene, oil(4)));
  must(settle(scene, 4, 5));
  const auto ids = [&](const service::FindingsQuery& query) {
    std::string all;
    for (const auto& one : must(show_findings(scene.shop(), query)).findings) all += one.id.back();
    return all;
  };
  EXPECT_EQ(ids({}), "231");
  EXPECT_EQ(ids({"mill1"}), "31");
  EXPECT_EQ(ids({{}, service::FindingsShown::settled}), "4");
  EXPECT_EQ(ids({{}, service::FindingsShown::all}), "2314");
}

}  // namespace
}  // namespace hw::shop
