// What stands beside the English sentences, so that a page can say them in another language.

#include <boost/json/serialize.hpp>

#include "tests/shop/served.h"
#include "tests/shop/walking.h"

namespace hw::shop {
namespace {

using Texts = std::map<std::string, std::string>;

TEST(Sayings, AnEntryTellsThePiecesOfItsSentence) {
  Scene scene;
  scene.play("mill1 |##|");
  const std::string title = scene.task("filter").title;
  EXPECT_EQ(must(scene.done("filter", 1)).told->title, title);
  EXPECT_EQ(must(scene.undo(1, 2)).told->title, title);
  must(scene.read_hours(1000, 3));
  must(scene.read_hours(3, 4));
  must(scene.settle(4, "misread", 5));
  const auto retired =
      must(retire_task(scene.shop(), "mill1", "grease", {id_of(6), "Ada", {}, {}}, scene.now)).told.value();
  EXPECT_EQ(retired.version, 2);
  service::CorrectionEdit edit;
  edit.id = id_of(7);
  edit.by = "Ada";
  edit.says = "It was the other one";
  const auto corrected = must(correct_entry(scene.shop(), id_of(1), edit, scene.now)).told.value();
  EXPECT_EQ(corrected.corrects_ordinal, 1);
  EXPECT_EQ(corrected.right, "It was the other one");
  scene.reopen();
  const auto entries = scene.machine().entries;  // the latest first
  EXPECT_EQ(entries.at(2).told->display->settled_as, "misread");
  EXPECT_EQ(entries.at(3).told->display->verdict->code, "display-fell");
  EXPECT_EQ(entries.at(4).told->display->verdict->numbers.at("hours"), 998);
}

TEST(Sayings, AReadingOfAnHourDisplayIsSaidAfterARestartToo) {
  Scene scene;
  scene.play("mill1 |####|");
  must(scene.read_hours(1000.26, 1));
  scene.reopen();
  const auto reading = scene.machine().hour_readings.at(0);
  EXPECT_EQ(reading.saying->code, "display-first");
  EXPECT_EQ(reading.saying->numbers.at("hours"), 996.3) << "as the sentence has it: " << reading.says;
}

TEST(Sayings, AJudgementNamesItsLimit) {
  Scene scene("2026-03-02T06:00:00Z", "Europe/Berlin", round_tasks);
  const Walker ada{scene};
  const auto limit_of = [&](int id, double value) {
    return must(ada.answer(id, 99, read("air/supply air", value))).answers->at(0).limit;
  };
  EXPECT_EQ(limit_of(1, 5.2), 5.5);
  EXPECT_EQ(limit_of(2, 4.9), 5);
  EXPECT_EQ(limit_of(3, 7.5), 7);
  EXPECT_EQ(limit_of(4, 6), std::nullopt);
  EXPECT_EQ(must(ada.begin(5, {"look"})).told->checks, 1);
}

TEST(Sayings, WhatIsStrayAndWhatIsLeftOutSaysWhy) {
  Scene scene;
  must(retire_task(scene.shop(), "mill1", "grease", {id_of(1), "Ada", {}, {}}, scene.now));
  const auto late = must(scene.done("grease", 2));
  EXPECT_EQ(late.stray_saying->code, "task-retired-on");
  EXPECT_EQ(late.stray_saying->texts.at("date"), "2026-03-02");
  EXPECT_EQ(must(scene.done("nothing", 3)).stray_saying->texts, (Texts{{"machine", "mill1"}, {"task", "nothing"}}));
  service::FindingEdit edit;
  edit.id = id_of(4);
  edit.by = "Ada";
  edit.what = "It leaks";
  edit.task = "grease";
  must(make_finding(scene.shop(), "mill1", edit, scene.now));
  EXPECT_EQ(scene.machine().entries.at(0).told->unlinked->code, "task-retired");
}

TEST_F(Served, ARefusalThatPeopleMeetCarriesWhatItSays) {
  ask("POST", "/api/machines/mill1/tasks/filter/done", done_body(1));
  const Answer other =
      ask("POST", "/api/entries/" + id_of(1) + "/undo", fmt::format(R"({{"id":"{}","by":"Bo \"B\" Fink"}})", id_of(2)));
  expect_problem(other, 409, "only Ada");
  EXPECT_EQ(boost::json::serialize(other.json().at("saying")),
            R"({"code":"undo-not-own","texts":{"by":"Ada"},"numbers":{}})");
  ask("POST", "/api/entries/" + id_of(1) + "/undo", done_body(2));
  const Answer twice = ask("POST", "/api/entries/" + id_of(1) + "/undo", done_body(3));
  expect_problem(twice, 409, "already");
  EXPECT_EQ(twice.json().at("saying").at("code"), "undo-twice");
  const Answer quoted = ask("GET", "/api/machines/mill%229");
  expect_problem(quoted, 404, "mill\"9");
  EXPECT_EQ(quoted.json().at("saying").at("texts").at("machine"), "mill\"9");
  EXPECT_FALSE(ask("GET", "/api/machines/mill1/days").json().as_object().contains("saying")) << "a program's mistake";
}

TEST(Sayings, ARefusalNamesItsNumbers) {
  Scene scene;
  must(scene.done("filter", 1));
  scene.now = scene.now + Duration::seconds(11);
  const auto late = scene.undo(1, 2);
  ASSERT_FALSE(late);
  EXPECT_EQ(late.error().saying, (Saying{"undo-late", {}, {{"count", 10}}}));
}

TEST_F(Served, KindsOfMachinesHaveTheirGermanTitle) {
  const Answer shop = ask("GET", "/api/shop");
  const boost::json::value kind = shop.json().at("kinds").at(0);
  EXPECT_EQ(kind.at("title"), "Mill") << shop.body;
  EXPECT_EQ(kind.at("title_de"), "Fräse");
}

}  // namespace
}  // namespace hw::shop
