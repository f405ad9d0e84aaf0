// Closing a stop: what was done counts, what was not is free again, and all of it is kept or nothing.

#include <random>

#include <gmock/gmock.h>

#include "src/storage/open_store.h"
#include "tests/shop/stopping.h"

namespace hw::shop {
namespace {

using testing::HasSubstr;

// The task "air" has a reading, "oil" a quantity.
constexpr MoreTasks closing_tasks{R"(
[[task]]
key = "air"
title = "Read the air"
assembly = "coolant"
work = "measure"
skill = "operator"
energy = "powered at rest"
minutes = 2
trigger = [ { calendar = "1 month" } ]
steps = []
reason = "Low air drops the clamp."
caution = "Stay clear."
parts = []
reading = [ { what = "supply air", unit = "bar", warning = { min = 5.5 } } ]

[[task]]
key = "oil"
title = "Top up the oil"
assembly = "spindle"
work = "top up"
skill = "operator"
energy = "powered at rest"
minutes = 4
trigger = [ { calendar = "1 month" } ]
steps = []
reason = "It runs dry."
caution = "Wipe what is spilt."
parts = []
quantity_unit = "l"
)"};

struct Closing : testing::Test {
  Scene scene{"2026-03-02T06:00:00Z", "Europe/Berlin", closing_tasks};
  Stopping stops{scene};
};

TEST_F(Closing, WhatWasDoneBeginsAnewAndWhatWasNotIsFreeAgain) {
  scene.play("mill1 |####|");
  must(stops.agree(1, {"filter", "grease"}));
  auto edit = stops.closing(10, 1, {"filter"});
  edit.note = "no grease left";
  edit.done[0].as_found = service::AsFound::worn;
  edit.done[0].minutes = 25;
  edit.done[0].note = "torn";
  const auto closed = must(stops.close(1, edit));
  EXPECT_EQ(closed.state, "closed");
  EXPECT_EQ(closed.closed->by, "Bo");
  EXPECT_EQ(closed.closed->note, "no grease left");
  EXPECT_EQ(closed.closed->ended_at, scene.now);
  EXPECT_EQ(closed.tasks.at(0).state, "done");
  EXPECT_EQ(closed.tasks.at(0).as_found, service::AsFound::worn);
  EXPECT_EQ(closed.tasks.at(0).done_by, "Bo");
  EXPECT_EQ(closed.tasks.at(1).state, "left undone");
  EXPECT_EQ(*scene.trigger("filter").used, 0);
  EXPECT_EQ(*scene.trigger("grease").used, 4);
  const auto entry = stops.entries("task done").at(0);
  EXPECT_EQ(entry.id, id_of(11));
  EXPECT_EQ(entry.stop, id_of(1));
  EXPECT_EQ(entry.doing->as_found, service::AsFound::worn);
  EXPECT_EQ(entry.doing->minutes, 25);
  EXPECT_EQ(entry.note, "torn");
  EXPECT_EQ(stops.entries("stop closed").at(0).says, "stop of 2026-03-04, early: closed; 1 of 2 tasks done");
  EXPECT_TRUE(stops.agreed().empty());
  EXPECT_TRUE(stops.agree(2, {"grease"}));
  scene.reopen();
  EXPECT_EQ(*scene.trigger("filter").used, 0);
  EXPECT_EQ(stops.shown(1).tasks.at(0).as_found, service::AsFound::worn);
}

TEST_F(Closing, TheHoursAreThoseOfTheMomentWhenTheTaskWasDone) {
  must(stops.agree(1, {"filter", "oil"}));
  scene.play("mill1 |######|");
  auto edit = stops.closing(10, 1, {"filter", "oil"});
  edit.began_at = scene.now - Duration::hours(4);
  edit.ended_at = scene.now - Duration::hours(2);
  edit.done[1].at = scene.now - Duration::hours(3);
  edit.done[1].by = "Cem";
  edit.sent_at = scene.now;
  must(stops.close(1, edit));
  EXPECT_NEAR(*scene.trigger("filter").used, 2, 1e-9) << "since the stop's end";
  const auto oil = scene.task("oil").last_done.value();
  EXPECT_NEAR(oil.counters.at("operating"), 3, 1e-9);
  EXPECT_EQ(oil.by, "Cem");
  EXPECT_EQ(stops.shown(1).tasks.at(1).done_at, scene.now - Duration::hours(3));
}

TEST_F(Closing, ReadingsAndQuantitiesAreKeptWithTheTask) {
  must(stops.agree(1, {"air", "oil"}));
  auto edit = stops.closing(10, 1, {"air", "oil"});
  edit.done[0].readings = std::vector<service::ReadValue>{{"supply air", "bar", 6.1}};
  edit.done[1].quantity = 1.5;
  must(stops.close(1, edit));
  EXPECT_EQ(scene.task("air").last_done->doing->readings->at(0).value, 6.1);
  EXPECT_EQ(scene.task("oil").last_done->doing->quantity, 1.5);
  EXPECT_EQ(scene.task("oil").last_done->doing->quantity_unit, "l");
}

TEST_F(Closing, SentTwiceItIsTheSameAnswerAndNoFurtherEntry) {
  must(stops.agree(1, {"filter", "grease"}));
  const auto edit = stops.closing(10, 1, {"filter", "grease"});
  const auto first = must(stops.close(1, edit));
  for (int i = 0; i < 4; ++i) {
    const auto again = must(stops.close(1, edit));
    EXPECT_EQ(again.version, first.version);
    EXPECT_EQ(again.closed->at, first.closed->at);
  }
  EXPECT_EQ(scene.machine().entries.size(), 4u);
  EXPECT_EQ(stops.close(1, 2, {}, 20).error().saying->code, "stop-closed") << "another closing is none";
}

TEST_F(Closing, WithNothingDoneLeavesAllUndone) {
  must(stops.agree(1, {"filter"}));
  EXPECT_EQ(must(stops.close(1, 1, {}, 10)).tasks.at(0).state, "left undone");
  EXPECT_FALSE(scene.task("filter").last_done);
}

TEST_F(Closing, WhatCannotBeIsRefusedAndNothingIsKept) {
  must(stops.agree(1, {"air", "oil", "filter"}));
  const auto entries = scene.machine().entries.size();
  const auto expect_refused = [&](const service::StopClose& edit, std::string_view says) {
    const auto refused = stops.close(1, edit);
    ASSERT_FALSE(refused) << says;
    EXPECT_EQ(refused.error().code, ErrorCode::bad_input) << refused.error().message;
    EXPECT_THAT(refused.error().message, HasSubstr(std::string{says}));
    EXPECT_EQ(scene.machine().entries.size(), entries);
    EXPECT_EQ(stops.shown(1).state, "agreed");
  };
  auto edit = stops.closing(10, 1, {"filter", "grease"});
  expect_refused(edit, "done[1].task: \"grease\" is not in the stop");
  edit = stops.closing(10, 1, {"filter"});
  edit.began_at = edit.ended_at + Duration::seconds(1);
  expect_refused(edit, "ended_at: ");
  edit = stops.closing(10, 1, {"filter"});
  edit.ended_at = scene.now + Duration::hours(25);
  expect_refused(edit, "ended_at: ");
  edit = stops.closing(10, 1, {"filter", "air"});
  edit.done[1].readings = std::vector<service::ReadValue>{{"supply air", "bar", 2e9}};
  expect_refused(edit, "done[1]: readings: ");
  edit.done[1].readings = std::vector<service::ReadValue>{{"supply air", "psi", 90}};
  expect_refused(edit, "done[1]: readings: ");
  edit.done[1].readings = std::vector<service::ReadValue>{{"vacuum", "bar", 1}};
  expect_refused(edit, "\"vacuum\" is no reading");
  edit = stops.closing(10, 1, {"filter"});
  edit.done[0].quantity = 1;
  expect_refused(edit, "quantity: ");
}

// The second of three entries has an id that is somebody else's: the first must not stay.
TEST_F(Closing, Survives_ARefusalInTheMiddleWithNothingHalfDone) {
  must(scene.done("look", 12));
  must(stops.agree(1, {"air", "oil", "filter"}));
  const auto entries = scene.machine().entries.size();
  const auto refused = stops.close(1, 1, {"air", "oil", "filter"}, 10);
  EXPECT_EQ(refused.error().code, ErrorCode::conflict);
  EXPECT_EQ(scene.machine().entries.size(), entries);
  EXPECT_FALSE(scene.task("air").last_done);
  EXPECT_EQ(stops.shown(1).state, "agreed");
  EXPECT_TRUE(must(prove_logbook(scene.shop())).breaks.empty());
  must(stops.close(1, 1, {"air", "oil", "filter"}, 20));
}

TEST_F(Closing, ATaskThatWasRetiredMeanwhileIsKeptAsStrayAndCountsForNothing) {
  must(stops.agree(1, {"filter"}));
  must(retire_task(scene.shop(), "mill1", "filter", {id_of(2), "Ada", {}, {}}, scene.now));
  must(stops.close(1, 1, {"filter"}, 10));
  EXPECT_THAT(*stops.entries("task done").at(0).stray, HasSubstr("was retired"));
  EXPECT_FALSE(scene.task("filter").last_done);
}

TEST_F(Closing, WhatWasDoneInItIsNotTakenBackByAPress) {
  must(stops.agree(1, {"filter"}));
  must(stops.close(1, 1, {"filter"}, 10));
  EXPECT_FALSE(stops.entries("task done").at(0).undo_until);
  EXPECT_EQ(scene.undo(11, 20, "Bo").error().saying->code, "undo-of-stop");
}

TEST_F(Closing, ItsRecordIsProvedAndItsTaskEntriesAreAboutTheStop) {
  must(stops.agree(1, {"filter", "oil"}));
  must(stops.close(1, 1, {"filter"}, 10));
  EXPECT_TRUE(must(prove_logbook(scene.shop())).breaks.empty());
  for (const auto& entry : scene.machine().entries) EXPECT_EQ(entry.stop, id_of(1)) << entry.kind;
}

// Whatever people agree, change, withdraw and close: no task is in two agreed stops, each task done has exactly one
// entry, and what a closing leaves undone can be planned anew.
TEST_F(Closing, Property_NoTaskIsLostOrPlannedTwice) {
  std::mt19937 random(20260302);
  const auto draw = [&](int most) { return static_cast<int>(random() % static_cast<unsigned>(most)); };
  const std::vector<std::string> keys{"filter", "grease", "look", "air", "oil"};
  const auto some = [&] {
    std::vector<std::string> drawn;
    for (const auto& key : keys) {
      if (draw(2) == 0) drawn.push_back(key);
    }
    return drawn;
  };
  int id = 100;
  std::size_t done = 0;
  for (int step = 0; step < 150; ++step) {
    scene.now = scene.now + Duration::seconds(60);
    const auto agreed = stops.agreed();
    if (agreed.empty() || draw(3) == 0) {
      (void)stops.agree(id += 20, some(), LocalDate::of(2026, 3, 4) + draw(5));
    } else {
      const auto& stop = agreed[static_cast<std::size_t>(draw(static_cast<int>(agreed.size())))];
      const int number = std::stoi(stop.id.substr(24));
      service::StopChange change;
      change.tasks = some();
      if (draw(3) == 0) {
        (void)stops.change(number, stop.version, change, id += 20);
      } else if (draw(4) == 0) {
        must(stops.withdraw(number, id += 20));
      } else {
        std::vector<std::string> did;
        for (const auto& task : stop.tasks) {
          if (draw(2) == 0) did.push_back(task.task);
        }
        done += did.size();
        must(stops.close(number, stop.version, did, id += 20));
        for (const auto& task : stops.shown(number).tasks) {
          EXPECT_EQ(task.state == "done", std::find(did.begin(), did.end(), task.task) != did.end());
        }
      }
    }
    std::map<std::string, int> planned;
    for (const auto& stop : stops.agreed()) {
      for (const auto& task : stop.tasks) EXPECT_EQ(++planned[task.task], 1) << task.task;
    }
  }
  EXPECT_GT(done, 20u);
  service::LogbookQuery query;
  query.kind = "task done";
  query.count = 500;
  EXPECT_EQ(must(show_logbook(scene.shop(), query)).entries.size(), done);
  EXPECT_TRUE(must(prove_logbook(scene.shop())).breaks.empty());
}

}  // namespace
}  // namespace hw::shop
