// Tasks that a reading makes due: when, since when, and what no trigger can be.

#include "src/service/reading_triggers.h"

#include <algorithm>

#include "tests/shop/served.h"
#include "tests/shop/walking.h"

namespace hw::shop {
namespace {

constexpr std::string_view air_reading = "air/supply air";

service::TriggerText by_air(std::string limit = "warning", int heads_up_days = 0) {
  service::TriggerText trigger;
  trigger.reading = "supply air";
  trigger.of = "air";
  trigger.limit = std::move(limit);
  trigger.heads_up_days = heads_up_days;
  return trigger;
}

service::TriggerText by_calendar(std::string every) {
  service::TriggerText trigger;
  trigger.calendar = std::move(every);
  return trigger;
}

// The round of the shift reads the air; the task of id 1 replaces its filter.
class ReadingTriggers : public testing::Test {
 protected:
  ReadingTriggers() : scene("2026-03-02T06:00:00Z", "Europe/Berlin", round_tasks) {}

  service::TaskEdit edit_of(std::vector<service::TriggerText> triggers) const {
    service::TaskEdit edit;
    edit.id = id_of(1);
    edit.by = "Ada";
    edit.title = "Replace the air filter";
    edit.assembly = "spindle";
    edit.work = "replace";
    edit.skill = "technician";
    edit.energy = "isolated";
    edit.minutes = 15;
    edit.triggers = std::move(triggers);
    return edit;
  }
  void add(std::vector<service::TriggerText> triggers) {
    must(add_task(scene.shop(), "mill1", edit_of(std::move(triggers)), scene.now));
  }
  std::string refusal(service::TriggerText trigger) {
    const auto added = add_task(scene.shop(), "mill1", edit_of({std::move(trigger)}), scene.now);
    EXPECT_FALSE(added);
    return added ? "" : added.error().message;
  }
  void read_daily(const std::vector<double>& values) {
    const Walker ada{scene};
    for (const double value : values) {
      scene.now = scene.now + Duration::hours(24);
      ++id_;
      must(ada.answer(100 + id_, 1000 + id_, read(std::string{air_reading}, value)));
    }
  }
  service::TaskView filter() const { return scene.task(id_of(1)); }
  service::ForecastView forecast() {
    service::UseForecasts forecasts(scene.shop());
    const auto view = must(service::show_horizon(scene.shop(), forecasts, "mill1", scene.now));
    for (const auto& one : view.machines.at(0).tasks) {
      if (one.task == id_of(1)) return one.forecast;
    }
    ADD_FAILURE() << "the filter is not on the horizon";
    return {};
  }
  LocalDate today() const { return scene.shop().calendar().zone.date_of(scene.now); }

  Scene scene;
  int id_ = 0;
};

TEST_F(ReadingTriggers, DueAsSoonAsAValueIsBeyondAndInHandOnceItIsDone) {
  add({by_air()});
  EXPECT_EQ(filter().state, "in hand");
  EXPECT_FALSE(filter().triggers.at(0).last_value);
  read_daily({5.8});
  EXPECT_EQ(filter().state, "in hand");
  EXPECT_EQ(filter().triggers.at(0).last_value, 5.8);
  read_daily({5.4});
  EXPECT_EQ(filter().state, "due");
  EXPECT_EQ(filter().triggers.at(0).due_on, today());
  EXPECT_EQ(filter().triggers.at(0).limit_at, 5.5);
  read_daily({5.6});
  EXPECT_EQ(filter().state, "due") << "one good value does not take it back";
  must(scene.done(id_of(1), 50));
  EXPECT_EQ(filter().state, "in hand");
  EXPECT_FALSE(filter().triggers.at(0).last_value) << "only what is read after it was done counts";
  scene.reopen();
  EXPECT_EQ(filter().state, "in hand");
}

TEST(ReadingDue, CountsOnlyWhatWasReadSinceAndKnowsBothSides) {
  const Instant noon = *parse_instant("2026-03-02T12:00:00Z");
  const std::vector<service::TimedValue> values{{noon, 5.0}, {noon + Duration::hours(24), 6.0}};
  const auto limits = service::limits_of({"supply air", "bar", {5.5, 6.5}, {}}, catalogue::LimitKind::warning);
  ASSERT_EQ(limits.size(), 2U);
  const auto due = service::reading_due_since(values, Zone::utc(), noon, limits);
  EXPECT_FALSE(due.beyond_on) << "5 bar was read before it was done";
  EXPECT_EQ(due.last->value, 6.0);
  EXPECT_EQ(due.days_read, 1);
  EXPECT_EQ(due.refused->saying->code, "reading-few-since");
  const auto before = service::reading_due_since(values, Zone::utc(), noon - Duration::hours(1), limits);
  EXPECT_EQ(*before.beyond_on, LocalDate::of(2026, 3, 2));
  EXPECT_EQ(before.limit_at, 5.5);
}

TEST_F(ReadingTriggers, ATrendGivesADateAndTheHeadsUpMakesItComing) {
  add({by_air("warning", 10)});
  EXPECT_EQ(forecast().refusal->code, "reading-few-since");
  read_daily({6.2, 6.15, 6.1, 6.1, 6.0, 5.95, 5.9, 5.9, 5.8, 5.75});
  const auto ahead = forecast();
  EXPECT_EQ(ahead.leads, "supply air");
  EXPECT_FALSE(ahead.refused);
  EXPECT_GE(*ahead.median, today() + 3);
  EXPECT_LE(*ahead.median, today() + 7);
  EXPECT_EQ(filter().state, "coming");
}

TEST_F(ReadingTriggers, WhatOnlyScattersHasNoDateAndLeavesItToTheCalendar) {
  add({by_air(), by_calendar("2 months")});
  read_daily({6.0, 6.1, 5.9, 6.0, 6.1, 5.9, 6.0, 6.1, 6.0, 5.9});
  const auto ahead = forecast();
  EXPECT_EQ(ahead.leads, "2 months");
  EXPECT_FALSE(ahead.refused) << "the calendar has a date";
  EXPECT_EQ(*ahead.median, LocalDate::of(2026, 5, 2));
}

TEST_F(ReadingTriggers, TheFirstOfReadingAndCalendarDecides) {
  add({by_air(), by_calendar("2 months")});
  read_daily({6.2, 6.15, 6.1, 6.1, 6.0, 5.95, 5.9, 5.9, 5.8, 5.75});
  EXPECT_EQ(forecast().leads, "supply air");
  EXPECT_LE(*forecast().last, LocalDate::of(2026, 5, 2)) << "by then the calendar is due";
  service::UseForecasts forecasts(scene.shop());
  const auto working = must(show_forecast(scene.shop(), forecasts, "mill1", id_of(1), scene.now));
  EXPECT_EQ(working.triggers.at(0).reading, "supply air");
  EXPECT_EQ(working.triggers.at(0).known_days, 10);
  EXPECT_FALSE(working.triggers.at(0).chances->empty());
  EXPECT_EQ(working.quantiles.p50, forecast().median);
}

TEST_F(ReadingTriggers, OfAReadingThatNobodyTakesAreRefused) {
  auto trigger = by_air();
  trigger.of = "oil";
  EXPECT_NE(refusal(trigger).find("no task \"oil\""), std::string::npos);
  trigger = by_air();
  trigger.reading = "oil";
  EXPECT_NE(refusal(trigger).find("reads no \"oil\""), std::string::npos);
  EXPECT_NE(refusal(by_air("alarm")).find("alarm"), std::string::npos);
  trigger = by_air();
  trigger.calendar = "1 week";
  EXPECT_NE(refusal(trigger).find("one of these"), std::string::npos);
  trigger = by_air();
  trigger.limit.reset();
  EXPECT_NE(refusal(trigger).find("limit"), std::string::npos);
  trigger = by_air();
  trigger.tolerance_days = 3;
  EXPECT_NE(refusal(trigger).find("nothing else"), std::string::npos);
}

TEST_F(ReadingTriggers, WhatTakesTheReadingCannotBeRetiredBeforeIt) {
  add({by_air()});
  const auto retired = retire_task(scene.shop(), "mill1", "air", {id_of(60), "Ada", {}, {}}, scene.now);
  ASSERT_FALSE(retired);
  EXPECT_EQ(retired.error().saying->code, "reading-needed");
  must(retire_task(scene.shop(), "mill1", id_of(1), {id_of(61), "Ada", {}, {}}, scene.now));
  must(retire_task(scene.shop(), "mill1", "air", {id_of(62), "Ada", {}, {}}, scene.now));
}

}  // namespace
}  // namespace hw::shop
