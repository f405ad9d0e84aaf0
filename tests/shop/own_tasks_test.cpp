// Tasks of the shop's own, and changes of any task.

#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

service::TaskEdit edit_of(int id, service::TriggerText trigger) {
  service::TaskEdit edit;
  edit.id = id_of(id);
  edit.by = "Ada";
  edit.title = "Empty the chip bin";
  edit.assembly = "coolant";
  edit.work = "clean";
  edit.skill = "operator";
  edit.energy = "in production";
  edit.minutes = 5;
  edit.triggers = {std::move(trigger)};
  return edit;
}

service::TriggerText every_hours(std::string counter, double interval, double heads_up = 0) {
  service::TriggerText trigger;
  trigger.counter = std::move(counter);
  trigger.interval = interval;
  trigger.heads_up = heads_up;
  return trigger;
}

std::string refusal(Scene& scene, const service::TaskEdit& edit) {
  const auto added = add_task(scene.shop(), "mill1", edit, scene.now);
  EXPECT_FALSE(added);
  return added ? "" : added.error().message;
}

TEST(OwnTask, CountsFromTheMomentItIsAdded) {
  Scene scene;
  scene.play("mill1 |###|");
  const auto added = must(add_task(scene.shop(), "mill1", edit_of(1, every_hours("operating", 4, 1)), scene.now));
  EXPECT_TRUE(added.own);
  EXPECT_EQ(added.version, 1);
  EXPECT_EQ(*added.triggers.at(0).used, 0);
  scene.play("mill1 |###|");
  EXPECT_EQ(scene.task(id_of(1)).state, "coming");
  scene.reopen();
  EXPECT_NEAR(*scene.trigger(id_of(1)).used, 3, 1e-9);
  EXPECT_EQ(scene.task(id_of(1)).began_at, added.began_at);
}

TEST(OwnTask, OneItemsCounterCanBeItsTrigger) {
  Scene scene;
  scene.play("mill1 |S|");
  must(add_task(scene.shop(), "mill1", edit_of(1, every_hours("revolutions Srpm", 500'000)), scene.now));
  scene.play("mill1 |S|");
  EXPECT_NEAR(*scene.trigger(id_of(1)).used, 3000 * 60, 1e-6);
  EXPECT_EQ(scene.trigger(id_of(1)).unit, "rev");
}

TEST(OwnTask, TheSameIdTwiceIsOneTask) {
  Scene scene;
  const auto edit = edit_of(1, every_hours("operating", 4));
  must(add_task(scene.shop(), "mill1", edit, scene.now));
  EXPECT_EQ(must(add_task(scene.shop(), "mill1", edit, scene.now)).key, id_of(1));
  EXPECT_EQ(scene.machine().tasks.size(), 4u);
  EXPECT_EQ(add_task(scene.shop(), "mill2", edit, scene.now).error().code, ErrorCode::conflict);
}

TEST(OwnTask, WhatTheMachineDoesNotHaveIsRefusedByName) {
  Scene scene;
  scene.play("mill1 |#|");
  auto edit = edit_of(1, every_hours("operating", 4));
  edit.assembly = "turret";
  EXPECT_EQ(refusal(scene, edit), "assembly: mill1 has no assembly \"turret\"");
  edit = edit_of(1, every_hours("operating", 4));
  edit.point = 9;
  EXPECT_EQ(refusal(scene, edit), "point: mill1 has no point 9");
  EXPECT_NE(refusal(scene, edit_of(1, every_hours("opperating", 4))).find("opperating"), std::string::npos);
  EXPECT_EQ(refusal(scene, edit_of(1, every_hours("spindle S9", 4))), "counter: mill1 has no counter \"spindle S9\"");
  EXPECT_NE(refusal(scene, edit_of(1, every_hours("operating", 0))).find("triggers[0]: interval"), std::string::npos);
  EXPECT_EQ(add_task(scene.shop(), "mill9", edit, scene.now).error().code, ErrorCode::not_found);
  EXPECT_TRUE(scene.machine().entries.empty());
}

TEST(ChangeTask, TheRecordStaysAndTheVersionRises) {
  Scene scene;
  scene.play("mill1 |####|");
  must(scene.done("filter", 1));
  scene.play("mill1 |##|");
  auto edit = edit_of(2, every_hours("operating", 3, 1));
  edit.version = 1;
  const auto changed = must(change_task(scene.shop(), "mill1", "filter", edit, scene.now));
  EXPECT_EQ(changed.version, 2);
  EXPECT_FALSE(changed.own);
  EXPECT_EQ(changed.state, "coming");
  EXPECT_NEAR(*changed.triggers.at(0).used, 2, 1e-9);
  EXPECT_EQ(changed.last_done->id, id_of(1));
  scene.reopen();
  EXPECT_EQ(scene.task("filter").title, "Empty the chip bin");
  EXPECT_EQ(scene.task("filter").version, 2);
}

TEST(ChangeTask, ReadingsAndQuantityUnitAreKeptByAChangeThatDoesNotSpeakOfThem) {
  Scene scene;
  auto edit = edit_of(1, every_hours("operating", 3));
  edit.version = 1;
  edit.work = "top up";
  edit.quantity_unit = "l";
  edit.readings = {{"pH", "pH", service::BoundsText{8.5, 9.3}, {}}};
  must(change_task(scene.shop(), "mill1", "filter", edit, scene.now));
  edit.id = id_of(2);
  edit.version = 2;
  edit.readings.reset();
  edit.quantity_unit.reset();
  must(change_task(scene.shop(), "mill1", "filter", edit, scene.now));
  scene.reopen();
  ASSERT_TRUE(scene.task("filter").readings);
  EXPECT_EQ(scene.task("filter").readings->at(0).warning->max, 9.3);
  EXPECT_EQ(scene.task("filter").quantity_unit, "l");
  edit.id = id_of(3);
  edit.version = 3;
  edit.work = "clean";
  edit.readings.emplace();
  must(change_task(scene.shop(), "mill1", "filter", edit, scene.now));
  scene.reopen();
  EXPECT_FALSE(scene.task("filter").readings);
  EXPECT_FALSE(scene.task("filter").quantity_unit);
}

TEST(ChangeTask, AnotherVersionThanThePresentOneIsAConflictAndNoneIsRefused) {
  Scene scene;
  auto edit = edit_of(1, every_hours("operating", 3));
  EXPECT_EQ(change_task(scene.shop(), "mill1", "filter", edit, scene.now).error().code, ErrorCode::bad_input);
  edit.version = 2;
  EXPECT_EQ(change_task(scene.shop(), "mill1", "filter", edit, scene.now).error().code, ErrorCode::conflict);
  edit.version = 1;
  must(change_task(scene.shop(), "mill1", "filter", edit, scene.now));
  must(change_task(scene.shop(), "mill1", "filter", edit, scene.now));  // the same id again: as it is
  EXPECT_EQ(scene.task("filter").version, 2);
  edit.id = id_of(2);
  EXPECT_EQ(change_task(scene.shop(), "mill1", "filter", edit, scene.now).error().code, ErrorCode::conflict);
  EXPECT_EQ(
      change_task(scene.shop(), "mill1", "grease", edit_of(1, every_hours("operating", 3)), scene.now).error().code,
      ErrorCode::conflict);
}

TEST(RetireTask, ItLeavesTheListOnceAndItsRecordStays) {
  Scene scene;
  must(scene.done("filter", 1));
  const service::Signature signature{id_of(2), "Ada", {}, {}};
  must(retire_task(scene.shop(), "mill1", "filter", signature, scene.now));
  must(retire_task(scene.shop(), "mill1", "filter", signature, scene.now));
  EXPECT_EQ(retire_task(scene.shop(), "mill1", "filter", {id_of(3), "Ada", {}, {}}, scene.now).error().code,
            ErrorCode::conflict);
  scene.reopen();
  ASSERT_EQ(scene.machine().retired.size(), 1u);
  EXPECT_EQ(scene.machine().retired.at(0).last_done->id, id_of(1));
  EXPECT_EQ(scene.machine().entries.size(), 2u);
}

}  // namespace
}  // namespace hw::shop
