#include "src/sheets/stop_card.h"

#include <gtest/gtest.h>

namespace hw::sheets {
namespace {

// A stop of one isolated task on a lathe in Berlin.
struct StopShown {
  service::StopCardView view;
  service::MachineRecord machine;
  service::ShopRecord shop;

  StopShown() {
    catalogue::Task task;
    task.key = "filter";
    task.title = "Change the filter";
    machine.machine.key = "m01";
    machine.machine.kind = "lathe";
    machine.machine.cell = "north";
    machine.points = {{4, "coolant", "Tank", 0.5, 0.5}};
    machine.tasks = {service::TaskRecord{}, service::TaskRecord{}};
    machine.tasks[1].task = task;
    shop.calendar.zone = *Zone::find("Europe/Berlin");
    shop.kinds = {{"lathe", "Lathe", "Drehmaschine", {}}};
    shop.cells = {{"north", "Cell North"}};
    view.stop.state = "agreed";
    view.stop.begins_at = shop.calendar.zone.at(LocalDate::of(2026, 10, 25), 6 * 60);
    view.stop.ends_at = shop.calendar.zone.at(LocalDate::of(2026, 10, 25), 14 * 60);
    view.tasks = {service::TaskView{}};
    view.tasks[0].key = "filter";
    view.order.phases = {{"isolated", "shut down", {{"filter", 2, 15, true, {}}}}};
    service::FindingView finding;
    finding.what = "It drips";
    finding.point = 4;
    view.findings = {finding};
  }
};

TEST(StopCard, TakesTheTaskFromTheMachineAndItsPlaceInTheOrder) {
  const StopShown shown;
  const auto card = job_card_of(shown.view, shown.machine, shown.shop, CardLanguage::english);
  ASSERT_EQ(card.tasks.size(), 1u);
  EXPECT_EQ(card.tasks[0].title, "Change the filter");
  EXPECT_EQ(card.phases.at(0).change, StateChange::shut_down);
  EXPECT_EQ(card.phases[0].works.at(0).person, 2);
  EXPECT_TRUE(card.phases[0].works[0].is_alone);
  EXPECT_EQ(card.findings.at(0).where, "Tank");
  EXPECT_EQ(card.cell, "Cell North");
}

TEST(StopCard, TheShiftIsToldByTheClockOnTheWallAlsoOnTheDayOnWhichItIsSetBack) {
  const StopShown shown;
  const auto card = job_card_of(shown.view, shown.machine, shown.shop, CardLanguage::english);
  EXPECT_EQ(card.shift.begins, "06:00");
  EXPECT_EQ(card.shift.ends, "14:00");
}

TEST(StopCard, TheKindIsInTheWordsOfTheLanguage) {
  StopShown shown;
  EXPECT_EQ(job_card_of(shown.view, shown.machine, shown.shop, CardLanguage::german).kind, "Drehmaschine");
  shown.shop.kinds[0].title_de = "";
  EXPECT_EQ(job_card_of(shown.view, shown.machine, shown.shop, CardLanguage::german).kind, "Lathe");
  shown.shop.kinds.clear();
  EXPECT_EQ(job_card_of(shown.view, shown.machine, shown.shop, CardLanguage::german).kind, "lathe");
}

TEST(StopCard, TheServiceIsInTheWordsOfTheLanguage) {
  StopShown shown;
  EXPECT_EQ(job_card_of(shown.view, shown.machine, shown.shop, CardLanguage::german).service, "");
  shown.view.service = service::CardServiceView{"yearly", "Yearly service", "Jahreswartung"};
  EXPECT_EQ(job_card_of(shown.view, shown.machine, shown.shop, CardLanguage::english).service, "Yearly service");
  EXPECT_EQ(job_card_of(shown.view, shown.machine, shown.shop, CardLanguage::german).service, "Jahreswartung");
}

TEST(StopCard, TheAddressIsThatOfTheStopsPage) {
  EXPECT_EQ(stop_address("http://shop.example:8470/", "7b0d"), "http://shop.example:8470/stop/7b0d");
  for (const auto* wrong : {"", "shop.example", "http://shop.example/?a=1"}) {
    const auto address = stop_address(wrong, "7b0d");
    ASSERT_FALSE(address) << wrong;
    EXPECT_EQ(address.error().code, ErrorCode::bad_input);
  }
}

}  // namespace
}  // namespace hw::sheets
