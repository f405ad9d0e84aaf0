// Looking things up in the logbook, page by page, and saying what is right.

#include <gmock/gmock.h>

#include "src/service/logbook.h"
#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

using service::LogbookQuery;
using testing::HasSubstr;

// "3 2 1": the ordinals of a page, and "..." where there are more.
std::string page(const Scene& scene, const LogbookQuery& query = {}) {
  const auto view = must(show_logbook(scene.shop(), query));
  std::string ordinals;
  for (const auto& entry : view.entries) ordinals += (ordinals.empty() ? "" : " ") + std::to_string(entry.ordinal);
  return ordinals + (view.more ? " ..." : "");
}

Result<service::EntryView> done(Scene& scene, std::string_view machine, std::string_view task, int id, std::string by,
                                std::optional<std::string> note = {}) {
  service::DoneEdit edit;
  edit.id = id_of(id);
  edit.by = std::move(by);
  edit.note = std::move(note);
  return mark_done(scene.shop(), machine, task, edit, scene.now);
}

// Six entries: 1 to 3 on Monday, 4 to 6 on Tuesday.
class Pages : public testing::Test {
 protected:
  Pages() {
    scene.play("mill1 |##|");
    must(done(scene, "mill1", "filter", 1, "Ada", "ÖL on the floor"));
    must(done(scene, "mill2", "filter", 2, "Bo"));
    must(scene.read_hours(100, 3));
    scene.now = scene.now + Duration::hours(24);
    must(done(scene, "mill1", "grease", 4, "Bo"));
    must(done(scene, "mill1", "filter", 5, "Ada"));
    must(done(scene, "mill2", "grease", 6, "Ada", "= quoted"));
  }
  Scene scene;
};

TEST_F(Pages, TheLatestComeFirst) {
  EXPECT_EQ(page(scene), "6 5 4 3 2 1");
  EXPECT_EQ(must(show_logbook(scene.shop(), {})).strays, 0);
}

TEST_F(Pages, ThePageAfterBeginsBeforeTheLastOrdinal) {
  LogbookQuery query;
  query.count = 2;
  EXPECT_EQ(page(scene, query), "6 5 ...");
  query.before = 5;
  EXPECT_EQ(page(scene, query), "4 3 ...");
  query.before = 3;
  EXPECT_EQ(page(scene, query), "2 1");
  query.before = 1;
  EXPECT_EQ(page(scene, query), "");
}

TEST_F(Pages, AFilterLeavesWhatFits) {
  LogbookQuery query;
  query.machine = "mill1";
  EXPECT_EQ(page(scene, query), "5 4 3 1");
  query.by = "Ada";
  EXPECT_EQ(page(scene, query), "5 3 1");
  query.kind = "task done";
  EXPECT_EQ(page(scene, query), "5 1");
  query.count = 1;
  EXPECT_EQ(page(scene, query), "5 ...");
  EXPECT_EQ(page(scene, {.machine = "mill9"}), "");
}

TEST_F(Pages, DaysAreThePlantsAndBothEndsBelong) {
  const LocalDate monday = LocalDate::of(2026, 3, 2);
  EXPECT_EQ(page(scene, {.first = monday, .last = monday}), "3 2 1");
  EXPECT_EQ(page(scene, {.first = monday + 1}), "6 5 4");
  EXPECT_EQ(page(scene, {.last = monday}), "3 2 1");
  EXPECT_EQ(page(scene, {.first = monday + 2}), "");
  EXPECT_EQ(page(scene, {.last = monday - 1}), "");
  EXPECT_EQ(page(scene, {.machine = "mill2", .first = monday, .last = monday + 1}), "6 2");
}

TEST_F(Pages, ALateEntryIsAmongThoseOfTheDayOnWhichItHappened) {
  service::DoneEdit late;
  late.id = id_of(7);
  late.by = "Ada";
  late.at = scene.now - Duration::hours(23);
  late.sent_at = scene.now;
  must(mark_done(scene.shop(), "mill1", "filter", late, scene.now));
  const LocalDate monday = LocalDate::of(2026, 3, 2);
  EXPECT_EQ(page(scene, {.last = monday}), "7 3 2 1");
  EXPECT_EQ(page(scene, {.first = monday + 1}), "6 5 4");
}

TEST_F(Pages, ATextIsFoundInSentenceAndNoteCapitalsOrNot) {
  EXPECT_EQ(page(scene, {.text = "öl ON"}), "1");
  EXPECT_EQ(page(scene, {.text = "replace the FILTER"}), "5 2 1");
  EXPECT_EQ(page(scene, {.text = "no such thing"}), "");
  LogbookQuery query{.text = "filter"};
  query.count = 1;
  EXPECT_EQ(page(scene, query), "5 ...");
}

TEST_F(Pages, WhatCannotBeAskedIsRefused) {
  EXPECT_EQ(show_logbook(scene.shop(), {.kind = "task undone"}).error().code, ErrorCode::bad_input);
  const LocalDate monday = LocalDate::of(2026, 3, 2);
  EXPECT_EQ(show_logbook(scene.shop(), {.first = monday, .last = monday - 1}).error().code, ErrorCode::bad_input);
  for (const int count : {0, -1, 501}) {
    LogbookQuery query;
    query.count = count;
    EXPECT_EQ(show_logbook(scene.shop(), query).error().code, ErrorCode::bad_input) << count;
  }
}

service::CorrectionEdit correction(int id, std::string says = "It was the other machine") {
  service::CorrectionEdit edit;
  edit.id = id_of(id);
  edit.by = "Ada";
  edit.says = std::move(says);
  return edit;
}

TEST_F(Pages, ACorrectionPointsAtTheEntryAndTheEntryAtIt) {
  const auto corrected = must(correct_entry(scene.shop(), id_of(2), correction(10), scene.now));
  EXPECT_EQ(corrected.kind, "correction");
  EXPECT_EQ(corrected.machine, "mill2");
  EXPECT_EQ(corrected.task, "filter");
  EXPECT_EQ(corrected.corrects, id_of(2));
  EXPECT_EQ(corrected.says, "to entry 2: It was the other machine");
  must(correct_entry(scene.shop(), id_of(2), correction(11, "and later"), scene.now));
  const auto entries = must(show_logbook(scene.shop(), {.machine = "mill2"})).entries;
  EXPECT_EQ(entries.back().ordinal, 2);
  EXPECT_EQ(*entries.back().corrected_by, (std::vector<std::string>{id_of(10), id_of(11)}));
  EXPECT_EQ(scene.task("filter", "mill2").last_done->id, id_of(2)) << "a correction changes nothing by itself";
}

TEST_F(Pages, TheSameCorrectionFiveTimesIsOneAndItsIdForAnotherEntryAConflict) {
  for (int i = 0; i < 5; ++i) must(correct_entry(scene.shop(), id_of(2), correction(10), scene.now));
  EXPECT_EQ(page(scene), "7 6 5 4 3 2 1");
  EXPECT_EQ(correct_entry(scene.shop(), id_of(6), correction(10), scene.now).error().code, ErrorCode::conflict);
  EXPECT_EQ(correct_entry(scene.shop(), id_of(77), correction(11), scene.now).error().code, ErrorCode::not_found);
  EXPECT_EQ(correct_entry(scene.shop(), id_of(2), correction(11, " "), scene.now).error().code, ErrorCode::bad_input);
}

TEST_F(Pages, AStrayWaitsForTheLeadUntilACorrectionNamesIt) {
  service::FindingEdit edit;
  edit.id = id_of(20);
  edit.by = "Ada";
  edit.what = "Oil";
  must(make_finding(scene.shop(), "mill9", edit, scene.now));
  EXPECT_EQ(must(show_logbook(scene.shop(), {})).strays, 1);
  EXPECT_EQ(page(scene, {.only_strays = true}), "7");
  EXPECT_EQ(page(scene, {.machine = "mill1", .only_strays = true}), "");
  const auto corrected = must(correct_entry(scene.shop(), id_of(20), correction(21, "It was mill1"), scene.now));
  EXPECT_FALSE(corrected.stray);
  EXPECT_EQ(corrected.machine, "mill9");
  EXPECT_EQ(must(show_logbook(scene.shop(), {})).strays, 0);
  EXPECT_EQ(page(scene, {.only_strays = true}), "");
  EXPECT_EQ(must(show_finding(scene.shop(), id_of(20))).entries.size(), 2u) << "it is of the finding's history too";
}

TEST_F(Pages, ATableOfMoreEntriesThanItsLimitIsNotMade) {
  EXPECT_EQ(must(list_logbook(scene.shop(), {.by = "Bo"})).size(), 2u);
  EXPECT_EQ(list_logbook(scene.shop(), {.kind = "x"}).error().code, ErrorCode::bad_input);
}

}  // namespace
}  // namespace hw::shop
