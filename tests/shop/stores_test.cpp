// The stores as people keep them: what happened is kept, what cannot be is refused, and stops know whether their kit is
// there.

#include <gmock/gmock.h>

#include "src/service/look_ahead.h"
#include "src/service/stop_follow_up.h"
#include "src/service/used_parts.h"
#include "tests/shop/stopping.h"
#include "tests/shop/storing.h"

namespace hw::shop {
namespace {

using kits::MovementKind;
using testing::HasSubstr;

const std::string bag_task = R"(
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
parts = [ { name = "Bag", quantity = 2, unit = "pc" } ]
)";

struct StoresOfAShop : testing::Test {
  Scene scene{"2026-03-02T06:00:00Z", "Europe/Berlin", MoreTasks{bag_task}};
  Stopping stops{scene};
  Storing stores{scene};

  StoresOfAShop() { must(stores.keep("F-1", Storing::filter(900))); }

  std::string kit_on_floor() const {
    return must(show_floor_machine(scene.shop(), "mill1", scene.now)).next_stop->kit.value_or("");
  }
  std::string refusal(const Result<service::EntryView>& result) { return result ? "" : result.error().message; }
};

TEST_F(StoresOfAShop, TwoTakeTheLastOneOfflineAndBothAreKept) {
  must(stores.move(1, MovementKind::received, 1));
  for (const int id : {2, 3}) {
    auto taken = stores.movement(id, MovementKind::taken, 1);
    taken.at = scene.now - Duration::hours(id);
    taken.sent_at = scene.now;
    must(stores.move(taken));
  }
  EXPECT_EQ(stores.shelf().book, 0);
  EXPECT_EQ(stores.shelf().difference, -1);
  scene.end_and_reopen();
  EXPECT_EQ(stores.shelf().difference, -1) << "as it was kept";
  must(stores.move(4, MovementKind::counted, 2));
  EXPECT_EQ(stores.shelf().book, 2);
  EXPECT_EQ(stores.shelf().difference, 0);
}

TEST_F(StoresOfAShop, TheSameMovementSentTwiceIsOne) {
  must(stores.move(1, MovementKind::received, 5));
  must(stores.move(1, MovementKind::received, 5));
  EXPECT_EQ(stores.shelf().book, 5);
  EXPECT_EQ(stores.move(900, MovementKind::received, 5).error().code, ErrorCode::conflict) << "an id of another entry";
}

TEST_F(StoresOfAShop, WhatIsOfNoMachineCanBeCorrected) {
  must(stores.move(1, MovementKind::received, 5));
  service::CorrectionEdit edit;
  edit.id = id_of(2);
  edit.by = "Ada";
  edit.says = "They were four.";
  const auto corrected = must(correct_entry(scene.shop(), id_of(1), edit, scene.now));
  EXPECT_EQ(corrected.machine, "");
  EXPECT_FALSE(corrected.stray);
  EXPECT_EQ(must(correct_entry(scene.shop(), id_of(1), edit, scene.now)).ordinal, corrected.ordinal) << "sent twice";
}

TEST_F(StoresOfAShop, WhatNoMovementCanBeIsRefusedWithItsField) {
  EXPECT_THAT(refusal(stores.move(1, MovementKind::counted, -3)), HasSubstr("less than nothing"));
  EXPECT_THAT(refusal(stores.move(1, MovementKind::taken, 0)), HasSubstr("above 0"));
  EXPECT_THAT(refusal(stores.move(1, MovementKind::taken, 1.5)), HasSubstr("no whole number of pc"));
  EXPECT_THAT(refusal(stores.move(1, MovementKind::taken, 1, "F-9")), HasSubstr("lines[0]: part: the stores do not"));
  auto twice = stores.movement(1, MovementKind::taken, 1);
  twice.lines.push_back(twice.lines.front());
  EXPECT_THAT(refusal(stores.move(twice)), HasSubstr("named twice"));
  EXPECT_TRUE(stores.shelf().steps.empty()) << "nothing of it was kept";
}

TEST_F(StoresOfAShop, ADeliveryOfMoreThanOrderedIsAskedForFirst) {
  must(stores.order(1, 4));
  auto delivery = stores.movement(2, MovementKind::received, 5);
  delivery.order = id_of(1);
  EXPECT_THAT(refusal(stores.move(delivery)), HasSubstr("5 of F-1 came, and 4 was still to come"));
  EXPECT_EQ(stores.shelf().book, 0);
  delivery.more_than_ordered = true;
  must(stores.move(delivery));
  EXPECT_EQ(stores.shelf().book, 5);
  EXPECT_FALSE(scene.shop().stores().order(id_of(1))->is_open());
  service::OrderChange change;
  change.id = id_of(3);
  change.by = "Ada";
  change.ended = true;
  EXPECT_EQ(change_order(scene.shop(), id_of(1), change, scene.now).error().code, ErrorCode::conflict);
}

TEST_F(StoresOfAShop, DeliveriesTeachHowLongTheyTake) {
  for (int i = 0; i < 4; ++i) {
    must(stores.order(10 + i, 2));
    scene.now = scene.now + Duration::hours(24 * 9);
    auto delivery = stores.movement(20 + i, MovementKind::received, 2);
    delivery.order = id_of(10 + i);
    must(stores.move(delivery));
  }
  service::UseForecasts forecasts(scene.shop());
  service::PartStudies parts(scene.shop());
  service::StoresStudies studies(scene.shop(), forecasts, parts);
  const auto part = must(show_stored_part(scene.shop(), studies, "F-1", scene.now));
  EXPECT_EQ(part.lead_times.deliveries.size(), 4u);
  EXPECT_GT(part.lead_times.days_50, 4) << "quoted 4, took 9";
  EXPECT_LE(part.lead_times.days_50, 9);
  EXPECT_EQ(part.on_hand, 8);
}

TEST_F(StoresOfAShop, AKitIsGreenOnlyWhenEveryLineIsThere) {
  must(stops.agree(1, {"bags"}));
  ASSERT_EQ(stores.readiness().size(), 1u);
  EXPECT_EQ(stores.readiness()[0].state, "short");
  must(stores.move(2, MovementKind::received, 1));
  EXPECT_EQ(stores.readiness()[0].state, "short") << "one of two";
  EXPECT_EQ(kit_on_floor(), "short");
  must(stores.move(3, MovementKind::received, 1));
  EXPECT_EQ(stores.readiness()[0].state, "ready");
  EXPECT_EQ(stores.readiness()[0].lines[0].state, "reserved");
  EXPECT_EQ(kit_on_floor(), "ready");
}

TEST_F(StoresOfAShop, TheStopThatBeginsFirstHasThePartsAndThePlannerHearsOfTheOther) {
  must(stores.move(2, MovementKind::received, 2));
  must(stops.agree(3, {"bags"}, LocalDate::of(2026, 3, 10)));
  auto other = stops.edit(4, {"bags"}, LocalDate::of(2026, 3, 5));
  must(agree_stop(scene.shop(), "mill2", other, scene.now));
  const auto ready = stores.readiness();
  EXPECT_EQ(ready[0].machine, "mill2");
  EXPECT_EQ(ready[0].state, "ready");
  EXPECT_EQ(ready[1].state, "short");
  service::UseForecasts forecasts(scene.shop());
  const auto ahead = must(look_ahead(scene.shop(), forecasts, {}, scene.now));
  ASSERT_EQ(ahead.stopping.parts_awaited.size(), 1u);
  EXPECT_EQ(ahead.stopping.parts_awaited[0].machine, "mill1");
  EXPECT_GT(ahead.stopping.parts_awaited[0].on, LocalDate::of(2026, 3, 5)) << "ordered today, four days quoted";
}

TEST_F(StoresOfAShop, AKitIsTakenAtOnceAndWhatWasNotUsedComesBackAtTheClosing) {
  must(stores.move(2, MovementKind::received, 5));
  must(stops.agree(1, {"bags"}));
  auto taken = stores.movement(3, MovementKind::taken, 2);
  taken.stop = id_of(1);
  EXPECT_EQ(must(stores.move(taken)).machine, "mill1");
  EXPECT_EQ(stores.readiness()[0].lines[0].state, "taken");
  EXPECT_EQ(stores.shelf().book, 3);
  auto closing = stops.closing(10, 1, {"bags"});
  closing.used = service::UsedParts{id_of(20), {{"F-1", 1}}};
  must(stops.close(1, closing));
  EXPECT_EQ(stores.shelf().book, 4);
  must(stops.close(1, closing));
  EXPECT_EQ(stores.shelf().book, 4) << "sent twice";
  EXPECT_EQ(stops.entries("stock moved").front().says, "returned: 1 pc Filter bag (F-1)");
}

TEST_F(StoresOfAShop, WhatWasUsedWithoutBeingTakenIsTakenAtTheClosingOrNothingIsKept) {
  must(stores.move(2, MovementKind::received, 5));
  must(stops.agree(1, {"bags"}));
  auto closing = stops.closing(10, 1, {"bags"});
  closing.used = service::UsedParts{id_of(20), {{"F-9", 1}}};
  EXPECT_FALSE(stops.close(1, closing));
  EXPECT_EQ(stops.shown(1).state, "agreed");
  closing.used = service::UsedParts{id_of(20), {{"F-1", 2}}};
  must(stops.close(1, closing));
  EXPECT_EQ(stores.shelf().book, 3);
}

TEST_F(StoresOfAShop, OfThingsWithNumbersThoseThatWereNotUsedComeBack) {
  auto edit = Storing::filter(5);
  edit.serial = true;
  must(stores.keep("B-1", edit));
  auto received = stores.movement(6, MovementKind::received, 2, "B-1");
  received.lines[0].serials = {"S1", "S2"};
  must(stores.move(received));
  must(stops.agree(1, {"bags"}));
  received.id = id_of(7);
  received.kind = MovementKind::taken;
  received.stop = id_of(1);
  must(stores.move(received));
  auto closing = stops.closing(10, 1, {"bags"});
  closing.used = service::UsedParts{id_of(20), {{"B-1", 1, std::vector<std::string>{"S1"}}}};
  const service::Stop stop = must(service::stored_stop(scene.shop(), id_of(1)));
  const auto entry = must(used_entry(scene.shop(), stop, closing, scene.now));
  ASSERT_TRUE(entry);
  EXPECT_EQ(entry->body.stores->movements->at(0).lines.at(0).serials, std::vector<std::string>{"S2"});
  must(stops.close(1, closing));
  EXPECT_EQ(stores.shelf("B-1").serials.at("S1").kind, MovementKind::taken);
  EXPECT_EQ(stores.shelf("B-1").serials.at("S2").kind, MovementKind::returned);
}

TEST_F(StoresOfAShop, AKitLaidDownForAKindGoesBeforeWhatTheTaskNames) {
  must(stores.keep("F-2", Storing::filter(901)));
  service::KitEdit kit;
  kit.id = id_of(5);
  kit.by = "Ada";
  kit.kind = "mill";
  kit.task = "bags";
  kit.lines = {{"F-2", 3}};
  must(keep_kit(scene.shop(), kit, scene.now));
  must(stops.agree(1, {"bags"}));
  EXPECT_EQ(stores.readiness()[0].lines[0].part, "F-2");
  EXPECT_EQ(stores.readiness()[0].lines[0].quantity, 3);
  kit.id = id_of(6);
  kit.lines = {{"F-7", 3}};
  EXPECT_THAT(keep_kit(scene.shop(), kit, scene.now).error().message, HasSubstr("do not keep \"F-7\""));
  kit.lines = {};
  must(keep_kit(scene.shop(), kit, scene.now));
  EXPECT_EQ(stores.readiness()[0].lines[0].part, "F-1");
}

TEST_F(StoresOfAShop, PartsChangeOnlyFromWhatThePersonSaw) {
  auto edit = Storing::filter(5);
  edit.title = "Bag, fine";
  EXPECT_EQ(stores.keep("F-1", edit).error().code, ErrorCode::conflict) << "no version named";
  edit.version = 1;
  must(stores.keep("F-1", edit));
  EXPECT_EQ(scene.shop().stores().part("F-1")->part.title, "Bag, fine");
  edit.id = id_of(6);
  EXPECT_EQ(stores.keep("F-1", edit).error().code, ErrorCode::conflict) << "version 2 by now";
  edit.version = 2;
  edit.substitutes = {"F-1"};
  EXPECT_THAT(stores.keep("F-1", edit).error().message, HasSubstr("in a ring"));
}

TEST_F(StoresOfAShop, APartEndsOnlyWhenNothingHangsOnIt) {
  const service::Signature signature{id_of(5), "Ada", {}, {}};
  must(stores.move(2, MovementKind::received, 1));
  EXPECT_THAT(end_part(scene.shop(), "F-1", signature, scene.now).error().message,
              HasSubstr("something of it is there"));
  must(stores.move(3, MovementKind::counted, 0));
  must(end_part(scene.shop(), "F-1", signature, scene.now));
  EXPECT_TRUE(scene.shop().stores().is_empty());
  EXPECT_EQ(end_part(scene.shop(), "F-1", {id_of(6), "Ada", {}, {}}, scene.now).error().code, ErrorCode::not_found);
}

TEST_F(StoresOfAShop, BeginWithThePartsThatTasksName) {
  must(end_part(scene.shop(), "F-1", {id_of(6), "Ada", {}, {}}, scene.now));
  must(begin_stores(scene.shop(), {id_of(7), "Ada", {}, {}}, scene.now));
  ASSERT_NE(scene.shop().stores().part("T001"), nullptr);
  EXPECT_EQ(scene.shop().stores().part("T001")->part.title, "Bag");
  EXPECT_EQ(scene.shop().stores().part("T002")->part.title, "Filter");
  EXPECT_EQ(begin_stores(scene.shop(), {id_of(8), "Ada", {}, {}}, scene.now).error().code, ErrorCode::conflict);
}

TEST_F(StoresOfAShop, ASheetIsTakenOverAsAWholeAgainstTheStoresThatItWasComparedWith) {
  service::SheetEdit sheet;
  sheet.id = id_of(5);
  sheet.by = "Ada";
  sheet.parts.resize(1);
  sheet.parts[0].number = "F-2";
  sheet.parts[0].title = "Other bag";
  sheet.parts[0].unit = "pc";
  sheet.counts = {{"F-2", 3}, {"F-9", 1}};
  sheet.seen = scene.shop().stores().version();
  EXPECT_FALSE(read_sheet(scene.shop(), sheet, scene.now)) << "F-9 is not kept";
  EXPECT_EQ(scene.shop().stores().part("F-2"), nullptr);
  sheet.counts.pop_back();
  must(stores.move(6, MovementKind::received, 1));
  EXPECT_EQ(read_sheet(scene.shop(), sheet, scene.now).error().saying->code, "stores-changed");
  sheet.seen = scene.shop().stores().version();
  must(read_sheet(scene.shop(), sheet, scene.now));
  must(read_sheet(scene.shop(), sheet, scene.now));
  EXPECT_EQ(stores.shelf("F-2").book, 3);
  scene.end_and_reopen();
  EXPECT_EQ(stores.shelf("F-2").book, 3);
}

TEST_F(StoresOfAShop, AnIdThatSaysSomethingElseIsAConflictAndNothingIsLost) {
  must(stores.order(1, 4));
  EXPECT_EQ(stores.order(1, 6).error().saying->code, "id-used");
  must(stores.move(2, MovementKind::received, 5));
  EXPECT_EQ(stores.move(2, MovementKind::received, 6).error().saying->code, "id-used");
  auto edit = Storing::filter(900);
  edit.title = "Another title";
  EXPECT_EQ(stores.keep("F-1", edit).error().saying->code, "id-used");
  EXPECT_EQ(stores.shelf().book, 5);
}

TEST_F(StoresOfAShop, WhatHappenedToAPartThatHasEndedIsKept) {
  must(stores.move(1, MovementKind::received, 2));
  must(stops.agree(2, {"bags"}));
  auto taken = stores.movement(3, MovementKind::taken, 2);
  taken.stop = id_of(2);
  must(stores.move(taken));
  must(end_part(scene.shop(), "F-1", {id_of(4), "Ada", {}, {}}, scene.now));
  must(stores.move(5, MovementKind::taken, 1));
  auto closing = stops.closing(10, 1, {"bags"});
  closing.used = service::UsedParts{id_of(20), {{"F-1", 1}}};
  must(stops.close(2, closing));
  EXPECT_EQ(scene.shop().stores().parts().at("F-1").shelf.book, 1);
  EXPECT_FALSE(stores.move(6, MovementKind::received, 1)) << "nobody orders it any more";
}

TEST_F(StoresOfAShop, OfWhatIsNotNamedAtTheClosingNothingComesBack) {
  must(stores.keep("S-1", Storing::filter(901)));
  must(stores.move(1, MovementKind::received, 9));
  must(stores.move(2, MovementKind::received, 9, "S-1"));
  must(stops.agree(3, {"bags"}));
  auto taken = stores.movement(4, MovementKind::taken, 3);
  taken.lines.push_back({"S-1", 1});
  taken.stop = id_of(3);
  must(stores.move(taken));
  const auto line = stores.readiness()[0].lines[0];
  EXPECT_EQ(line.taken, 2) << "as many as the stop needs";
  EXPECT_EQ(line.taken_of[0].quantity, 3) << "as many as were taken";
  auto closing = stops.closing(10, 1, {"bags"});
  closing.used = service::UsedParts{id_of(20), {{"F-1", 3}}};
  must(stops.close(3, closing));
  EXPECT_EQ(stores.shelf().book, 6);
  EXPECT_EQ(stores.shelf("S-1").book, 8);
}

TEST_F(StoresOfAShop, ASubstituteIsReservedUnderItsOwnNumberAndInTheSameUnit) {
  auto other = Storing::filter(901);
  other.names = {};
  must(stores.keep("G-1", other));
  auto edit = Storing::filter(902);
  edit.version = 1;
  edit.substitutes = {"G-1"};
  must(stores.keep("F-1", edit));
  must(stores.move(1, MovementKind::received, 1));
  must(stores.move(2, MovementKind::received, 5, "G-1"));
  must(stops.agree(3, {"bags"}));
  const auto line = stores.readiness()[0].lines[0];
  EXPECT_EQ(line.state, "reserved");
  ASSERT_EQ(line.reserved_of.size(), 2u);
  EXPECT_EQ(line.reserved_of[0], (catalogue::KitLine{"F-1", 1}));
  EXPECT_EQ(line.reserved_of[1], (catalogue::KitLine{"G-1", 1}));
  auto oil = Storing::filter(903);
  oil.unit = "l";
  must(stores.keep("O-1", oil));
  edit.id = id_of(904);
  edit.version = 2;
  edit.substitutes = {"O-1"};
  EXPECT_THAT(stores.keep("F-1", edit).error().message, HasSubstr("right is one unit"));
}

TEST_F(StoresOfAShop, ThingsOfTheirOwnNumberNeedOneForEach) {
  auto edit = Storing::filter(5);
  edit.serial = true;
  must(stores.keep("B-1", edit));
  auto received = stores.movement(6, MovementKind::received, 2, "B-1");
  EXPECT_THAT(refusal(stores.move(received)), HasSubstr("name one for each, not 0 for 2"));
  received.lines[0].serials = {"S1", "S2"};
  must(stores.move(received));
  received.id = id_of(7);
  EXPECT_EQ(stores.move(received).error().code, ErrorCode::conflict) << "they came in before";
}

TEST_F(StoresOfAShop, WhatAStopLacksIsProposedAndOnTodayUntilItIsOrdered) {
  must(stops.agree(1, {"bags"}, LocalDate::of(2026, 3, 7)));
  service::UseForecasts forecasts(scene.shop());
  service::PartStudies parts(scene.shop());
  service::StoresStudies studies(scene.shop(), forecasts, parts);
  const auto kinds = [&] {
    std::vector<std::string> shown;
    for (const auto& item : must(show_today(scene.shop(), forecasts, parts, studies, scene.now)).items) {
      shown.push_back(item.kind);
    }
    return shown;
  };
  const auto orders = must(show_orders(scene.shop(), studies, scene.now));
  ASSERT_EQ(orders.proposals.size(), 1u);
  EXPECT_EQ(orders.proposals[0].supplier, "Kranz");
  EXPECT_GE(orders.proposals[0].lines[0].quantity, 2);
  EXPECT_FALSE(orders.proposals[0].lines[0].reasons.empty());
  EXPECT_THAT(kinds(), testing::AllOf(testing::Contains("order"), testing::Contains("kit")));
  must(stores.order(2, 4));
  EXPECT_THAT(kinds(), testing::Not(testing::Contains("order")));
  auto delivery = stores.movement(3, MovementKind::received, 4);
  delivery.order = id_of(2);
  must(stores.move(delivery));
  EXPECT_THAT(kinds(), testing::Not(testing::Contains("kit")));
  EXPECT_EQ(stores.readiness()[0].state, "ready");
}

}  // namespace
}  // namespace hw::shop
