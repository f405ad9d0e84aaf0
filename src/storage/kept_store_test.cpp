#include "src/storage/kept_store.h"

#include "libs/formats/json.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

using service::CountingStep;
using service::Entry;
using service::TaskRecord;

void expect_equal(const TaskRecord& a, const TaskRecord& b) {
  EXPECT_EQ(a.task, b.task);
  EXPECT_EQ(a.version, b.version);
  EXPECT_EQ(a.is_own, b.is_own);
  EXPECT_EQ(a.retired_at, b.retired_at);
  EXPECT_EQ(a.began_at, b.began_at);
  EXPECT_EQ(a.began_counters, b.began_counters);
}

void expect_equal(const Entry& a, const Entry& b) {
  EXPECT_EQ(a.id, b.id);
  EXPECT_EQ(a.kind, b.kind);
  EXPECT_EQ(a.machine, b.machine);
  EXPECT_EQ(a.task, b.task);
  EXPECT_EQ(a.by, b.by);
  EXPECT_EQ(a.at, b.at);
  EXPECT_EQ(a.device_at, b.device_at);
  EXPECT_EQ(a.happened_at, b.happened_at);
  EXPECT_EQ(formats::print_json(a.body), formats::print_json(b.body));
  EXPECT_EQ(a.says, b.says);
  EXPECT_EQ(a.note, b.note);
  EXPECT_EQ(a.counters, b.counters);
  EXPECT_EQ(a.undoes, b.undoes);
}

TEST_F(StoreTest, AShopComesBackAsItWasMade) {
  open();
  const auto shop = **store->shop();
  const auto made = full_shop();
  EXPECT_EQ(shop.plant, made.plant);
  EXPECT_EQ(shop.calendar.zone.name(), "Europe/Berlin");
  ASSERT_EQ(shop.calendar.shifts.size(), 2u);
  EXPECT_EQ(shop.calendar.shifts.at(1).name, "night");
  EXPECT_EQ(shop.calendar.shifts.at(1).begins_minute, 1320);
  EXPECT_EQ(shop.calendar.shifts.at(1).ends_minute, 360);
  EXPECT_EQ(shop.calendar.shifts.at(0).weekdays, (std::vector<int>{1, 2, 3}));
  ASSERT_EQ(shop.calendar.closed.size(), 2u);
  EXPECT_EQ(print(shop.calendar.closed.at(1).on), "2026-12-25");
  EXPECT_EQ(shop.calendar.closed.at(1).why, "Christmas");
  EXPECT_EQ(shop.cells.at(0).key, "b");
  EXPECT_EQ(shop.cells.at(0).max_down, 2);
  EXPECT_EQ(shop.cells.at(1).max_down, std::nullopt);
  EXPECT_EQ(shop.stopping, made.stopping);
  EXPECT_EQ(shop.people.at(0).name, "Zoe");
  EXPECT_EQ(shop.people.at(0).skill, catalogue::Skill::technician);
  EXPECT_TRUE(shop.people.at(0).is_lead);
  EXPECT_EQ(shop.kinds.at(1).title, "Mill");
  EXPECT_EQ(shop.kinds.at(1).isolation, full_isolation());
  EXPECT_EQ(shop.kinds.at(0).isolation, catalogue::Isolation{});
  EXPECT_EQ(shop.kinds.at(1).services, std::vector{full_service()});
  EXPECT_TRUE(shop.kinds.at(0).services.empty());
  EXPECT_EQ(shop.feeds.at(1).url, "http://127.0.0.1:5001");
}

TEST_F(StoreTest, MachinesComeBackInTheirOrderWithAllThatBelongsToThem) {
  open();
  const auto machines = *store->machines();
  ASSERT_EQ(machines.size(), 2u);
  EXPECT_EQ(machines.at(0).machine.key, "l2");
  const auto& read = machines.at(1);
  const auto made = full_machine("l1");
  EXPECT_EQ(read.machine.name, made.machine.name);
  EXPECT_EQ(read.machine.kind, made.machine.kind);
  EXPECT_EQ(read.machine.cell, made.machine.cell);
  EXPECT_EQ(read.machine.year, made.machine.year);
  EXPECT_EQ(read.machine.note, made.machine.note);
  EXPECT_EQ(read.machine.fills, made.machine.fills);
  EXPECT_EQ(read.machine.standing_per_hour, 92.5);
  EXPECT_EQ(read.feed, made.feed);
  EXPECT_EQ(read.device, made.device);
  EXPECT_EQ(read.assemblies.at(0).key, "coolant");
  EXPECT_EQ(read.points.at(1).title, "Tank");
  EXPECT_EQ(read.points.at(0).x, 0.25);
  ASSERT_EQ(read.tasks.size(), 2u);
  for (std::size_t i = 0; i < 2; ++i) expect_equal(read.tasks.at(i), made.tasks.at(i));
}

TEST_F(StoreTest, AnEntryComesBackAsItWasAdded) {
  ASSERT_TRUE(keep(*store, full_entry("e1")));
  Entry bare = full_entry("e2");
  bare.task = bare.note = std::nullopt;
  bare.device_at = std::nullopt;
  ASSERT_TRUE(keep(*store, bare));
  open();
  expect_equal(**store->entry("e1"), full_entry("e1"));
  EXPECT_EQ((*store->entry("e1"))->ordinal, 1);
  EXPECT_EQ((*store->entry("e2"))->ordinal, 2);
  expect_equal(**store->entry("e2"), bare);
  EXPECT_FALSE(*store->entry("e3"));
  const auto entries = *store->entries_of("l1", 1);
  ASSERT_EQ(entries.size(), 1u);
  EXPECT_EQ(entries.at(0).id, "e2");
  EXPECT_TRUE(store->entries_of("l2", 9)->empty());
}

TEST_F(StoreTest, AnIdIsUsedOnce) {
  ASSERT_TRUE(keep(*store, full_entry("e1")));
  EXPECT_EQ(keep(*store, full_entry("e1", "own")).error().code, ErrorCode::conflict);
  EXPECT_EQ(store->entries_of("l1", 9)->size(), 1u);
}

TEST_F(StoreTest, TheLastDoneIsTheLatestThatWasNotTakenBack) {
  const auto last_done = [&] { return store->tasks_of("l1")->at(0).last_done; };
  EXPECT_FALSE(last_done());
  ASSERT_TRUE(keep(*store, full_entry("e1")));
  ASSERT_TRUE(keep(*store, full_entry("e2")));
  EXPECT_EQ(last_done()->id, "e2");
  Entry undoing = full_entry("e3");
  undoing.kind = "undone";
  undoing.undoes = "e2";
  ASSERT_TRUE(keep(*store, undoing));
  EXPECT_EQ(last_done()->id, "e1");
  EXPECT_TRUE((*store->entry("e2"))->is_undone);
  undoing.id = "e4";
  EXPECT_EQ(keep(*store, undoing).error().code, ErrorCode::conflict);  // it is taken back once
}

TEST_F(StoreTest, TheDoingsOfATaskAreThoseThatNobodyTookBackInTheOrderInWhichTheyHappened) {
  Entry late = full_entry("e1");
  late.happened_at = late.happened_at + Duration::hours(5);
  Entry undoing = full_entry("e4");
  undoing.kind = "undone";
  undoing.undoes = "e3";
  for (Entry entry : {late, full_entry("e2"), full_entry("e3"), undoing}) ASSERT_TRUE(keep(*store, entry));
  const auto doings = *store->doings_of("l1", *late.task);
  ASSERT_EQ(doings.size(), 2u);
  EXPECT_EQ(doings.at(0).id, "e2");
  EXPECT_EQ(doings.at(1).id, "e1");
  EXPECT_TRUE(store->doings_of("l2", *late.task)->empty());
}

TEST_F(StoreTest, ATaskThatChangesKeepsItsPlaceAndWhereItBegan) {
  auto task = store->tasks_of("l1")->at(0);
  task.task.title = "Replace both filters";
  task.version = 2;
  task.retired_at = at("2026-03-05T00:00:00Z");
  {
    auto writing = *store->begin();
    ASSERT_TRUE(writing->put_task("l1", task));
    ASSERT_TRUE(writing->commit());
  }
  open();
  expect_equal(store->tasks_of("l1")->at(0), task);
  EXPECT_EQ(store->tasks_of("l1")->size(), 2u);
  EXPECT_EQ(store->tasks_of("l2")->at(0).version, 1);
}

TEST_F(StoreTest, AReadingAndItsSettlementComeBack) {
  service::HourReading reading{.id = "r1",
                               .machine = "l1",
                               .counter = "operating",
                               .display_h = 1000.1,
                               .read_at = at("2026-03-02T07:00:00Z"),
                               .by = "Ada",
                               .counted_h = 3.3,
                               .unknown_h = 0.5,
                               .offset_h = 996.8,
                               .difference_h = -2.5,
                               .fits = false,
                               .says = "the display fell",
                               .settled_as = {}};
  auto writing = *store->begin();
  ASSERT_TRUE(writing->add_hour_reading(reading));
  reading.id = "r2";
  ASSERT_TRUE(writing->add_hour_reading(reading));
  ASSERT_TRUE(writing->settle_hour_reading("r1", "misread", "e1"));
  EXPECT_EQ(writing->settle_hour_reading("r1", "display is right", "e2").error().code, ErrorCode::conflict);
  ASSERT_TRUE(writing->commit());
  writing.reset();
  open();
  const auto readings = *store->hour_readings_of("l1");
  ASSERT_EQ(readings.size(), 2u);
  EXPECT_EQ(readings.at(0).id, "r2");
  EXPECT_FALSE(readings.at(0).settled_as);
  const auto& first = readings.at(1);
  EXPECT_EQ(first.settled_as, "misread");
  EXPECT_EQ(first.display_h, 1000.1);
  EXPECT_EQ(first.counted_h, 3.3);
  EXPECT_EQ(first.unknown_h, 0.5);
  EXPECT_EQ(first.offset_h, 996.8);
  EXPECT_EQ(first.difference_h, -2.5);
  EXPECT_EQ(first.read_at, reading.read_at);
  EXPECT_FALSE(first.fits);
  EXPECT_EQ(first.says, reading.says);
}

CountingStep full_step(std::uint64_t next_sequence) {
  CountingStep::Machine machine;
  machine.record = {"l1", R"({"id":"m"})", std::string("state\0with zero", 15)};
  machine.changed_days = {
      {"operating", {{LocalDate::of(2026, 3, 2), 1, 2, 3, 0.5}, {LocalDate::of(2026, 3, 3), 4, 5, 6, 7}}},
      {"own t", {{LocalDate::of(2026, 3, 2), 0, 0, 0, 1.0 / 3}}}};
  machine.log = {{Instant{5}, Instant{9}, std::string("\xff\x00p", 3)}};
  machine.checkpoint_on = LocalDate::of(2026, 3, 2);
  return {{machine},
          {{"feed-1", 18'446'744'073'709'551'615u, next_sequence, at("2026-03-02T07:00:00.5Z")}},
          {{"l1", "run of today", next_sequence, at("2026-03-02T07:00:00.123456789Z")}}};
}

Result<void> keep_step(service::Store& store, const CountingStep& step) {
  HW_TAKE(writing, store.begin());
  HW_TRY(writing->put_counting(step));
  return writing->commit();
}

TEST_F(StoreTest, AStepOfCountingComesBackWhole) {
  ASSERT_TRUE(keep_step(*store, full_step(1)));
  ASSERT_TRUE(keep_step(*store, full_step(9'223'372'036'854'775'809u)));
  open();
  EXPECT_EQ(store->counting()->at(0).state, std::string("state\0with zero", 15));
  EXPECT_EQ(store->positions()->at(0), full_step(9'223'372'036'854'775'809u).positions.at(0));
  EXPECT_EQ(*store->message_positions(), full_step(9'223'372'036'854'775'809u).message_positions);
  const LocalDate second = LocalDate::of(2026, 3, 2);
  EXPECT_EQ(*store->days_of("l1", "operating", second, second + 9),
            full_step(1).machines.at(0).changed_days.at(0).days);
  EXPECT_EQ(store->days_of("l1", "operating", second + 1, second + 1)->size(), 1u);
  EXPECT_TRUE(store->days_of("l2", "operating", second, second)->empty());
}

TEST_F(StoreTest, TheLogIsReadFromBehindACheckpointOn) {
  ASSERT_TRUE(keep_step(*store, full_step(1)));
  auto next = full_step(2);
  next.machines.at(0).checkpoint_on.reset();
  next.machines.at(0).log.at(0).payload = "second";
  ASSERT_TRUE(keep_step(*store, next));
  const auto read = [&](std::optional<LocalDate> after) {
    std::vector<std::string> payloads;
    EXPECT_TRUE(store->read_log("l1", after, [&](const service::LogPiece& piece) -> Result<void> {
      payloads.push_back(piece.payload);
      return {};
    }));
    return payloads;
  };
  const LocalDate second = LocalDate::of(2026, 3, 2);
  EXPECT_EQ(read({}).size(), 2u);
  EXPECT_EQ(read(second), std::vector<std::string>{"second"});
  EXPECT_EQ(store->checkpoint_of("l1", second + 5)->value().on, second);
  EXPECT_FALSE(*store->checkpoint_of("l1", second - 1));
}

TEST_F(StoreTest, WhatIsNotCommittedHasNotBeen) {
  {
    auto writing = *store->begin();
    service::Entry entry = full_entry("e1");
    ASSERT_TRUE(writing->add_entry(entry));
    ASSERT_TRUE(writing->put_counting(full_step(1)));
  }
  EXPECT_FALSE(*store->entry("e1"));
  EXPECT_TRUE(store->positions()->empty());
  EXPECT_TRUE(keep(*store, full_entry("e1")));
}

TEST_F(StoreTest, AStepThatIsRefusedOnItsWayLeavesNothing) {
  auto step = full_step(1);
  step.machines.push_back(step.machines.at(0));
  step.machines.at(1).record.machine = "no such machine";
  EXPECT_EQ(keep_step(*store, step).error().code, ErrorCode::conflict);
  EXPECT_TRUE(store->positions()->empty());
  EXPECT_TRUE(store->counting()->empty());
}

}  // namespace
}  // namespace hw::storage
