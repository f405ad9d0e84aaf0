// The pieces of the stores, each by itself: what entries come to, how long orders take, who asks for what.

#include <gmock/gmock.h>

#include "src/service/kit_lines.h"
#include "src/service/kit_states.h"
#include "src/service/lead_times.h"
#include "src/service/look_ahead.h"
#include "src/service/part_needs.h"
#include "src/service/parts_awaited.h"
#include "src/service/stop_kits.h"
#include "src/service/stores.h"
#include "src/service/stores_edits.h"
#include "src/service/stores_entries.h"
#include "src/service/stores_study.h"
#include "src/service/today_stores.h"
#include "tests/shop/stopping.h"
#include "tests/shop/storing.h"

namespace hw::shop {
namespace {

using kits::MovementKind;
using testing::ElementsAre;
using testing::HasSubstr;

const std::string oil_tasks = R"(
[[task]]
key = "oil"
title = "Fill the way oil"
assembly = "coolant"
work = "top up"
skill = "operator"
energy = "in production"
minutes = 2
trigger = [ { calendar = "1 shift" } ]
steps = []
reason = "It is used up."
caution = "Wipe up what is spilt."
parts = [ { name = "Way oil", quantity = 0.4, unit = "l" } ]

[[task]]
key = "bags"
title = "Replace the filter bags"
assembly = "coolant"
work = "replace"
skill = "technician"
energy = "powered at rest"
minutes = 10
trigger = [ { calendar = "1 month" } ]
steps = []
reason = "They fill."
caution = "Take care."
parts = [ { name = "bag", quantity = 2, unit = "pc" }, { name = "Seal", quantity = 1, unit = "set" } ]
)";

struct StoresPieces : testing::Test {
  Scene scene{"2026-03-02T06:00:00Z", "Europe/Berlin", MoreTasks{oil_tasks}};
  Stopping stops{scene};
  Storing stores{scene};
  service::UseForecasts forecasts{scene.shop()};
  service::PartStudies parts{scene.shop()};
  const LocalDate today = LocalDate::of(2026, 3, 2);

  StoresPieces() { must(stores.keep("F-1", Storing::filter(900))); }

  const service::OpenMachine& mill1() const { return *scene.shop().machines()[0]; }
  service::NeedsByPart needs() {
    const auto ahead = must(look_ahead(scene.shop(), forecasts, {}, scene.now));
    return needs_by_part(scene.shop(), ahead, {}, stop_kits(scene.shop(), today).kits);
  }
};

TEST_F(StoresPieces, ANameMeansThePartWhoseTitleOrNameItIsWhereTheUnitFits) {
  const auto& task = must(find_task(mill1(), "bags"))->task;
  const auto lines = kit_of(scene.shop(), mill1().record.machine, task);
  ASSERT_EQ(lines.size(), 2u);
  EXPECT_EQ(lines[0].part, "F-1") << "\"bag\" is \"Bag\"";
  EXPECT_FALSE(lines[1].part) << "nobody keeps a seal";
  auto set = Storing::filter(901);
  set.title = "Seal";
  set.names = {};
  must(stores.keep("S-1", set));
  EXPECT_FALSE(kit_of(scene.shop(), mill1().record.machine, task)[1].part) << "kept by the piece, asked for by the set";
  EXPECT_TRUE(nameless_parts(scene.shop()).contains("Seal"));
}

TEST_F(StoresPieces, WhatEntriesComeToDoesNotHangOnWhenTheyCame) {
  service::Stores one;
  service::Stores other;
  std::vector<service::Entry> entries;
  const auto moved = [&](int minute, MovementKind kind, double quantity) {
    service::Entry entry;
    entry.ordinal = static_cast<std::int64_t>(entries.size()) + 1;
    entry.happened_at = scene.now + Duration::seconds(60 * minute);
    entry.body.stores = service::StoresText{};
    entry.body.stores->movements = {{.kind = kind, .lines = {{"F-1", quantity}}, .stop = "s"}};
    entries.push_back(entry);
  };
  moved(30, MovementKind::taken, 2);
  moved(10, MovementKind::received, 5);
  moved(20, MovementKind::counted, 4);
  moved(40, MovementKind::returned, 1);
  one.take(entries);
  for (auto entry = entries.rbegin(); entry != entries.rend(); ++entry) other.take({&*entry, 1});
  EXPECT_EQ(one.parts().at("F-1").shelf.book, 3);
  EXPECT_EQ(other.parts().at("F-1").shelf.book, 3);
  EXPECT_EQ(one.taken_for("s").at("F-1"), 1);
  EXPECT_EQ(other.taken_at("s"), scene.now + Duration::seconds(30 * 60));
}

TEST_F(StoresPieces, AnOrderIsExpectedByItsAgeOrByTheDayConfirmed) {
  must(stores.order(1, 4));
  const auto& shop = scene.shop();
  const auto lead = lead_time_of(shop, shop.stores().part("F-1")->part);
  const service::OrderRecord order = *shop.stores().order(id_of(1));
  EXPECT_LT(expected_on(order, lead, today, today, 0.5), expected_on(order, lead, today, today, 0.9));
  EXPECT_GT(expected_on(order, lead, today - 30, today, 0.5), today) << "late, and not there";
  service::OrderRecord confirmed = order;
  confirmed.text.confirmed_on = today + 9;
  EXPECT_EQ(expected_on(confirmed, lead, today, today, 0.9), today + 9);
  EXPECT_EQ(chance_there(confirmed, lead, today, today, today + 8), 0);
  EXPECT_GT(chance_there(confirmed, lead, today, today + 10, today + 20), 0.9) << "that day is over: by its age again";
  EXPECT_EQ(incoming_of(shop, shop.stores().part("F-1")->part, today).at(0).quantity, 4);
}

TEST_F(StoresPieces, ATaskInAStopAsksOnItsDayAndAgainACycleLater) {
  const auto before = needs();
  EXPECT_TRUE(before.at("F-1").needs.certain.empty());
  EXPECT_EQ(before.at("F-1").needs.expected.size(), 2u) << "of each mill";
  must(stops.agree(1, {"bags"}, today + 4));
  const auto after = needs();
  ASSERT_EQ(after.at("F-1").needs.certain.size(), 1u);
  EXPECT_EQ(after.at("F-1").needs.certain[0].on, today + 4);
  EXPECT_EQ(after.at("F-1").needs.certain[0].quantity, 2);
  const auto& again = after.at("F-1").needs.expected[0];
  EXPECT_GT(due::quantile(again.due, 0.5), today + 4 + 25);
  EXPECT_NEAR(again.cycle_days, 30, 2);
}

TEST_F(StoresPieces, WhatIsTakenEveryShiftIsPutTogetherByWeeks) {
  auto oil = Storing::filter(901);
  oil.title = "Way oil";
  oil.unit = "l";
  oil.names = {};
  must(stores.keep("L-1", oil));
  const auto need = needs().at("L-1").needs.expected.at(0);
  EXPECT_DOUBLE_EQ(need.quantity, 5 * 0.4) << "five shifts a week";
  EXPECT_EQ(need.cycle_days, 7);
}

TEST_F(StoresPieces, WhatIsThereGoesToTheTaskThatFallsDueFirstAndTheOtherWaits) {
  must(stores.move(1, MovementKind::received, 2));
  const auto ahead = must(look_ahead(scene.shop(), forecasts, {}, scene.now));
  const auto awaited = parts_awaited(scene.shop(), ahead);
  ASSERT_EQ(awaited.size(), 1u) << "two mills, parts for one";
  EXPECT_EQ(awaited[0].task, "bags");
  EXPECT_GT(awaited[0].on, today);
  must(stores.move(2, MovementKind::received, 2));
  EXPECT_TRUE(parts_awaited(scene.shop(), ahead).empty());
}

TEST_F(StoresPieces, TheStateOfAKitIsKeptUntilSomethingChanges) {
  must(stops.agree(1, {"bags"}));
  service::KitStates states;
  EXPECT_EQ(states.of(scene.shop(), id_of(1), today), "short");
  must(stores.move(2, MovementKind::received, 2));
  EXPECT_EQ(states.of(scene.shop(), id_of(1), today), "not known") << "the bags are there; the seal nobody knows";
  EXPECT_FALSE(states.of(scene.shop(), id_of(7), today)) << "no such stop";
}

TEST_F(StoresPieces, AStudyIsMadeOnceUntilAnEntryOrTenMinutesCome) {
  service::StoresStudies studies(scene.shop(), forecasts, parts);
  const auto study = must(studies.at(scene.now));
  EXPECT_EQ(must(studies.at(scene.now + Duration::seconds(30))), study);
  EXPECT_NE(must(studies.at(scene.now + Duration::seconds(601))), study);
  const auto kept = must(studies.at(scene.now));
  must(stores.move(1, MovementKind::received, 2));
  EXPECT_NE(must(studies.at(scene.now)), kept);
  EXPECT_TRUE(must(today_of_stores(scene.shop(), studies, scene.now)).kits.empty());
}

TEST_F(StoresPieces, ALongEntryNamesSomeAndCountsTheOthers) {
  service::Entry entry;
  std::vector<catalogue::StoredPart> many(9);
  for (std::size_t i = 0; i < many.size(); ++i) many[i].number = fmt::format("P{}", i);
  tell_parts(entry, many);
  EXPECT_THAT(entry.says, HasSubstr("(P5) and 3 more"));
  EXPECT_EQ(entry.body.stores_told->parts, 9);
  EXPECT_FALSE(find_part(scene.shop().stores(), "P1"));
}

TEST_F(StoresPieces, AnEditIsWholeOrSaysWhichFieldIsNot) {
  auto edit = stores.movement(1, MovementKind::taken, 1);
  EXPECT_TRUE(check(edit));
  edit.order = id_of(2);
  EXPECT_THAT(check(edit).error().message, HasSubstr("only what is received"));
  edit = stores.movement(1, MovementKind::counted, 0);
  EXPECT_TRUE(check(edit)) << "nothing was found";
  edit.lines.clear();
  EXPECT_THAT(check(edit).error().message, HasSubstr("lines"));
  service::OrderChange change;
  change.id = id_of(3);
  change.by = "Ada";
  EXPECT_EQ(check(change).error().saying->code, "changes-nothing");
}

}  // namespace
}  // namespace hw::shop
