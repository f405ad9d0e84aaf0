#pragma once
// What the tests of this folder share: a folder with a store, and records with every field filled in.

#include <gtest/gtest.h>

#include "libs/sql/test_folder.h"
#include "src/service/store.h"
#include "src/storage/database_place.h"
#include "src/storage/open_store.h"
#include "tests/postgres/test_database.h"

namespace hw::storage {

inline Instant at(std::string_view text) { return *parse_instant(text); }

inline catalogue::Task full_task(std::string key) {
  return {.key = std::move(key),
          .title = "Replace the filter \"F1\"",
          .assembly = "coolant",
          .point = 2,
          .work = catalogue::WorkType::replace,
          .skill = catalogue::Skill::outside_service,
          .energy = catalogue::EnergyState::isolated,
          .minutes = 12.5,
          .triggers = {catalogue::CounterTrigger{"spindle S1", 400.25, 40, 20},
                       catalogue::CalendarTrigger{*catalogue::parse_calendar_interval("3 months"), 7, 2}},
          .steps = {"Öffnen.", "Schließen."},
          .reason = "It clogs.",
          .caution = "Isolate first.",
          .parts = {{"Filter", 1, "pc"}, {"Oil", 0.1, "l"}},
          .readings = {},
          .quantity_unit = {},
          .after = {"drain"}};
}

inline catalogue::Isolation full_isolation() {
  using catalogue::EnergySource;
  return {{{"main-switch", "Main switch", "Hauptschalter", EnergySource::electrical, "On the cabinet", "Am Schrank",
            "Off and locked.", "Aus und gesperrt.", 2, 15.0}},
          {{EnergySource::spring,
            "Disc springs",
            "Tellerfedern",
            "Leave them closed.",
            "Geschlossen lassen.",
            "Nothing is loose.",
            "Nichts ist lose.",
            {}}}};
}

inline catalogue::KindService full_service() {
  return {"half-yearly", "Half-yearly service", "Halbjahreswartung", 6, 3, {"filter", "grease"}};
}

inline service::ShopRecord full_shop() {
  service::ShopRecord shop;
  shop.plant = "Werk Süd";
  shop.calendar.zone = *Zone::find("Europe/Berlin");
  shop.calendar.shifts = {{"early", 360, 840, {1, 2, 3}}, {"night", 1320, 360, {7}}};
  shop.calendar.closed = {{LocalDate::of(2026, 12, 24), "works holiday"}, {LocalDate::of(2026, 12, 25), "Christmas"}};
  shop.cells = {{"b", "Cell B", 2}, {"a", "Cell A", {}}};
  shop.people = {{"Zoe", catalogue::Skill::technician, true}, {"Ada", catalogue::Skill::machine_operator, false}};
  shop.kinds = {{"lathe", "Lathe"}, {"mill", "Mill", "Fräse", full_isolation(), {full_service()}}};
  shop.stopping.currency = "SEK";
  shop.stopping.isolated = {1.5, 77.25};
  shop.stopping.crews = {{catalogue::Skill::outside_service, {{{1, 6}, "early", 8, 2.5, 12}}}};
  shop.stopping.absences = {
      {{}, "Zoe", LocalDate::of(2026, 3, 9), LocalDate::of(2026, 3, 13), "holiday"},
      {catalogue::Skill::technician, {}, LocalDate::of(2026, 4, 1), LocalDate::of(2026, 4, 1), "x"}};
  shop.stopping.blackouts = {{"l1", {}, LocalDate::of(2026, 3, 9), LocalDate::of(2026, 3, 10), "hot order"}};
  shop.stopping.parts_awaited = {{"l1", "filter", LocalDate::of(2026, 3, 20)}};
  shop.feeds = {{"feed-1", "http://127.0.0.1:5000"}, {"feed-2", "http://127.0.0.1:5001"}};
  return shop;
}

inline service::MachineRecord full_machine(std::string key) {
  service::MachineRecord record;
  record.machine = {.key = std::move(key),
                    .name = "Lathe 1",
                    .kind = "lathe",
                    .cell = "b",
                    .year = 2019,
                    .note = "by the door",
                    .agent = "",
                    .device = "",
                    .fills = {{"operating", "timer1"}},
                    .own_tasks = {},
                    .standing_per_hour = 92.5};
  record.assemblies = {{"coolant", "Coolant"}, {"axes", "Axes"}};
  record.points = {{1, "axes", "X", 0.25, 0}, {2, "coolant", "Tank", 1, 0.5}};
  service::TaskRecord task;
  task.task = full_task("filter");
  task.began_at = at("2026-03-02T06:00:00.123Z");
  task.began_counters = {{"spindle S1", 0.1 + 0.2}};
  service::TaskRecord own = task;
  own.task.key = "own";
  own.is_own = true;
  own.version = 7;
  own.retired_at = at("2026-03-03T06:00:00Z");
  record.tasks = {task, own};
  record.feed = "feed-2";
  record.device = "lathe-1";
  return record;
}

inline service::Entry full_entry(std::string id, std::string task = "filter") {
  service::Entry entry;
  entry.id = std::move(id);
  entry.kind = "task done";
  entry.machine = "l1";
  entry.task = std::move(task);
  entry.by = "Ada";
  entry.at = at("2026-03-02T07:00:00.001Z");
  entry.device_at = at("2026-03-02T06:59:00Z");
  entry.happened_at = at("2026-03-02T06:59:00.500Z");
  entry.says = "Replace the filter: done";
  entry.note = "dirty";
  entry.counters = {{"operating", 1234.5678901234567}, {"spindle S1", 1e-9}};
  entry.body.device_off_s = -60.5;
  entry.body.photos = std::vector<service::PhotoName>{{"p1", "00ff"}};
  return entry;
}

inline Result<void> keep(service::Store& store, const service::Entry& entry) {
  HW_TAKE(writing, store.begin());
  service::Entry kept = entry;
  HW_TRY(writing->add_entry(kept));
  return writing->commit();
}

// A store in a folder of its own, with a shop of two machines in it.
class StoreTest : public testing::Test {
 protected:
  StoreTest() {
    const auto placed = database ? place_on_server(folder.path(), database->address()) : Result<void>{};
    EXPECT_TRUE(placed);
    open();
    create();
  }
  void open() {
    store.reset();
    auto opened = open_store(folder.path());
    ASSERT_TRUE(opened) << opened.error().message;
    store = std::move(*opened);
  }
  void create() {
    const auto created = store->create_shop(full_shop(), {full_machine("l2"), full_machine("l1")});
    ASSERT_TRUE(created) << created.error().message;
  }

  sql::TestFolder folder;
  std::unique_ptr<TestDatabase> database = on_postgres() ? std::make_unique<TestDatabase>() : nullptr;
  std::unique_ptr<service::Store> store;
};

}  // namespace hw::storage
