// A month of a shop: what its key figures rest on, and what they are over the wire.

#include <gtest/gtest.h>

#include "libs/formats/pdf_reading_test.h"
#include "src/service/machine_month.h"
#include "src/service/month_hours.h"
#include "src/service/month_span.h"
#include "src/service/month_standing.h"
#include "src/service/month_tasks.h"
#include "tests/shop/served.h"
#include "tests/shop/stopping.h"

namespace hw::shop {
namespace {

service::MonthView month_of(const Scene& scene, std::string_view month = "2026-03",
                            std::optional<std::string> machine = "mill1") {
  return must(show_month(scene.shop(), {std::string(month), std::move(machine), {}}, scene.now));
}

const service::MonthFigureView& figure_in(const service::MonthView& view, std::string_view key) {
  static const service::MonthFigureView none{};
  for (const auto& figure : view.figures) {
    if (figure.key == key) return figure;
  }
  ADD_FAILURE() << key << " is not among the figures";
  return none;
}

void make_failure(Scene& scene, int id) {
  service::FindingEdit edit;
  edit.id = id_of(id);
  edit.by = "Ada";
  edit.what = "The spindle hums";
  edit.severity = service::Severity::stop_the_machine;
  must(make_finding(scene.shop(), "mill1", edit, scene.now));
}

void settle_failure(Scene& scene, int finding, int id) {
  service::FindingSettle edit;
  edit.id = id_of(id);
  edit.by = "Ada";
  edit.done = "bearing replaced";
  must(settle_finding(scene.shop(), id_of(finding), edit, scene.now));
}

// Monday from 07:00 local, the shift ends at 14:00.
TEST(Month, CountsFailuresFromTheFindingToItsSettlement) {
  Scene scene;
  scene.play("mill1 |###|");
  make_failure(scene, 1);
  scene.play("mill1 |#..|");
  settle_failure(scene, 1, 2);
  scene.play("mill1 |##|");
  const auto view = month_of(scene);
  EXPECT_EQ(view.sums.failures, 1);
  EXPECT_NEAR(view.sums.repair_h, 3, 1e-6);
  EXPECT_NEAR(view.sums.corrective_h, 3, 1e-6);
  EXPECT_NEAR(view.sums.operating_h, 6, 0.01);
  EXPECT_NEAR(view.sums.between_h, 5, 0.01) << "it ran on for an hour after the finding";
  EXPECT_NEAR(*figure_in(view, "mttr by failures").now.value, 3, 1e-6);
  EXPECT_NEAR(*figure_in(view, "mttr by iso 22400").now.value, 1.5, 1e-6);
  EXPECT_EQ(*figure_in(view, "corrective ratio").now.value, 1);
  ASSERT_EQ(view.failures.size(), 1u);
  EXPECT_EQ(view.failures[0].finding, id_of(1));
  EXPECT_NEAR(*view.failures[0].operating_h, 3, 0.01);
  EXPECT_NEAR(view.sums.failure_cost, 80 * 3, 1e-3) << "three hours of the shift at 80";
  EXPECT_EQ(month_of(scene, "2026-03", "mill2").sums.failures, 0);
  EXPECT_EQ(month_of(scene, "2026-03", {}).sums.failures, 1);
}

TEST(Month, ARepairThatGoesOnIsAtLeastAsLong) {
  Scene scene;
  scene.play("mill1 |##|");
  make_failure(scene, 1);
  scene.play("mill1 |..|");
  const auto view = month_of(scene);
  const auto& mttr = figure_in(view, "mttr by failures").now;
  EXPECT_FALSE(mttr.value);
  EXPECT_NEAR(*mttr.low, 2, 1e-6);
  EXPECT_TRUE(view.failures.at(0).goes_on);
}

TEST(Month, UnknownTimeIsToldAndNeverTakenForZero) {
  Scene scene;
  scene.play("mill1 |##??#.|");
  const auto view = month_of(scene);
  EXPECT_NEAR(view.sums.unknown_h, 2, 0.01);
  EXPECT_NEAR(view.sums.planned_h, 6, 1e-6);
  const auto& availability = figure_in(view, "availability").now;
  EXPECT_FALSE(availability.value);
  EXPECT_NEAR(*availability.low, 3.0 / 6, 0.01);
  EXPECT_NEAR(*availability.high, 5.0 / 6, 0.01);
  ASSERT_EQ(view.days->size(), 1u);
  const auto& day = view.days->at(0);
  EXPECT_NEAR(day.operating_h + day.unknown_h + 1, 6, 0.01) << "one hour it stood, and nothing is lost";
  const auto silent = month_of(scene, "2026-03", "mill2");
  EXPECT_NEAR(silent.sums.unknown_h, 6, 1e-6) << "a machine of which nothing was heard";
  EXPECT_EQ(figure_in(silent, "availability").now.none, "no hours");
}

TEST(Month, KnowsWorkInStopsAndTasksInTime) {
  Scene scene;
  scene.play("mill1 |##|");
  const Stopping stops{scene};
  must(stops.agree(1, {"filter"}, LocalDate::of(2026, 3, 2)));
  scene.play("mill1 |.|");
  auto closing = stops.closing(2, 1, {"filter"});
  closing.done[0].minutes = 45;
  must(stops.close(1, closing));
  scene.play("mill1 |#########|");  // the filter's 8 h are used up
  must(scene.done("grease", 10));
  auto view = month_of(scene);
  EXPECT_NEAR(view.sums.stops_h, 1, 1e-6);
  EXPECT_NEAR(view.sums.work_in_stops_h, 0.75, 1e-9);
  EXPECT_NEAR(view.sums.work_h, 0.75 + 5.5 / 60, 1e-9) << "grease: as it is planned";
  EXPECT_NEAR(*figure_in(view, "planned share").now.value, 0.75 / (0.75 + 5.5 / 60), 1e-9);
  ASSERT_EQ(view.works.size(), 2u);
  EXPECT_TRUE(view.works[0].measured);
  EXPECT_EQ(view.works[0].stop, id_of(1));
  EXPECT_FALSE(view.works[1].measured);
  EXPECT_EQ(view.sums.tasks_done_in_time, 2);
  scene.play("mill1 |##|");  // beyond the tolerance of 1 h
  view = month_of(scene);
  ASSERT_EQ(view.overdue.size(), 1u);
  EXPECT_EQ(view.overdue[0].task, "filter");
  EXPECT_TRUE(view.overdue[0].of_month);
  EXPECT_NEAR(*figure_in(view, "tasks in time").now.value, 2.0 / 3, 1e-9);
  must(scene.done("filter", 11));
  view = month_of(scene);
  EXPECT_TRUE(view.overdue.empty());
  EXPECT_FALSE(view.works.back().in_time);
  EXPECT_NEAR(*figure_in(view, "tasks in time").now.value, 2.0 / 3, 1e-9);
}

// A failure during a stop: no hour stands for both.
TEST(Month, Property_HoursStandForOneThingOnly) {
  Scene scene;
  scene.play("mill1 |#|");
  const Stopping stops{scene};
  must(stops.agree(1, {"filter"}, LocalDate::of(2026, 3, 2)));
  make_failure(scene, 5);
  scene.play("mill1 |..|");
  auto closing = stops.closing(2, 1, {"filter"});
  closing.began_at = scene.now - Duration::hours(3);
  must(stops.close(1, closing));
  scene.play("mill1 |.|");
  settle_failure(scene, 5, 6);
  const auto view = month_of(scene);
  EXPECT_NEAR(view.sums.corrective_h, 3, 1e-6);
  EXPECT_NEAR(view.sums.stops_h, 1, 1e-6) << "of three hours two were standing for the failure";
  EXPECT_NEAR(view.machines.at(0).stood_h, 4, 1e-6);
}

TEST(Month, OfOneMachineIsGatheredFromItsParts) {
  Scene scene;
  scene.play("mill1 |###|");
  make_failure(scene, 1);
  must(scene.done("grease", 2));
  scene.play("mill1 |.|");
  const auto& mill = *must(scene.shop().find("mill1"));
  const service::MonthSpan span = must(span_of(scene.shop(), *month::parse_month("2026-03"), scene.now));
  EXPECT_EQ(span.time.begins_at, scene.shop().founded_at());
  EXPECT_TRUE(is_in(span, scene.now));
  const auto planned = planned_in(scene.shop().calendar(), span);
  EXPECT_NEAR(month::hours_of(planned), 4, 1e-6);
  EXPECT_EQ(day_in(scene.shop().calendar(), span, span.first), (month::TimeSpans{span.time}));
  const auto hours = must(hours_in(scene.shop(), mill, span, scene.now));
  EXPECT_NEAR(hours.at_end.at("operating") - hours.at_begin.at("operating"), hours.days.at(0).operating_h, 1e-9);
  const auto standing = must(standing_in(scene.shop(), mill, span));
  EXPECT_EQ(standing.findings_made, 1);
  EXPECT_TRUE(standing.failures.at(0).goes_on);
  const auto tasks = must(tasks_in(scene.shop(), mill, span, hours));
  EXPECT_EQ(tasks.done.at(0).task, "grease");
  const auto whole = must(machine_month(scene.shop(), mill, span, scene.now));
  EXPECT_NEAR(whole.sums.corrective_h, month::hours_of({standing.failures[0].stood}), 1e-9);
  EXPECT_EQ(whole.sums.tasks_done, 1);
}

TEST(Month, WhatIsBeforeStandsBesideItAndPastMonthsStayAsTheyWere) {
  Scene scene("2026-03-31T06:00:00Z");
  scene.play("mill1 |####|");
  make_failure(scene, 1);
  scene.play("mill1 |....|");  // 16:00 in Berlin
  const auto march = month_of(scene);
  scene.now = scene.now + Duration::hours(24);
  scene.play("mill1 |##|");
  settle_failure(scene, 1, 2);
  scene.reopen();
  const auto april = month_of(scene, "2026-04");
  EXPECT_FALSE(april.is_over);
  EXPECT_EQ(april.sums.failures, 0) << "it happened in March";
  EXPECT_NEAR(april.sums.corrective_h, 18, 1e-6) << "from midnight to 18:00";
  EXPECT_NEAR(april.sums_before->operating_h, march.sums.operating_h, 0.01);
  EXPECT_TRUE(figure_in(april, "availability").before);
  const auto past = month_of(scene);
  EXPECT_TRUE(past.is_over);
  EXPECT_EQ(past.last, LocalDate::of(2026, 3, 31));
  EXPECT_NEAR(past.sums.repair_h, 12, 1e-6) << "until the end of March";
  EXPECT_EQ(past.sums.repairs_going_on, 1);
  EXPECT_NEAR(past.sums.between_h, march.sums.between_h, 0.01);
  EXPECT_FALSE(past.sums_before) << "the shop began in March";
}

TEST(Month, RoundsThatAreOverAreWalkedOrNot) {
  Scene scene;
  scene.play("mill1 |########|");  // the shift is over
  const auto view = month_of(scene);
  EXPECT_EQ(view.sums.turns, 0) << "the shift had begun before the round came to be";
  scene.now = scene.now + Duration::hours(24);
  const auto next = month_of(scene);
  EXPECT_EQ(next.sums.turns, 1);
  EXPECT_EQ(*figure_in(next, "rounds walked").now.value, 0);
}

TEST(Month, RefusesMonthsThatAreNoneAheadOrBefore) {
  Scene scene;
  const auto refusal = [&](std::string_view month) {
    const auto view = show_month(scene.shop(), {std::string(month), {}, {}}, scene.now);
    EXPECT_FALSE(view) << month;
    return view ? Error{} : view.error();
  };
  EXPECT_EQ(refusal("2026-13").message, "month: \"2026-13\" is none; right is a year and a month, such as 2026-11");
  EXPECT_EQ(refusal("2026-04").message, "2026-04 has not begun; the present month is 2026-03");
  EXPECT_EQ(refusal("2026-02").message, "2026-02 was over before the shop began, on 2026-03-02");
  EXPECT_EQ(refusal("2026-02").saying->code, "month-before");
  EXPECT_FALSE(show_month(scene.shop(), {"2026-03", "mill9", {}}, scene.now));
  EXPECT_FALSE(show_month(scene.shop(), {"2026-03", {}, "lathe"}, scene.now));
}

TEST_F(Served, AMonthIsToldInTheContractsWords) {
  const std::string path = "/api/months/{month}";
  make_failure(scene, 1);
  const auto month = answer_of("GET", path, "/api/months/2026-03?machine=mill1");
  EXPECT_EQ(month.at("figures").as_array().size(), 11u);
  EXPECT_EQ(month.at("failures").at(0).at("finding"), id_of(1).c_str());
  EXPECT_TRUE(month.at("figures").at(0).at("source").at("edition").as_string().starts_with("ISO 22400-2"));
  EXPECT_EQ(answer_of("GET", path, "/api/months/2026-03?kind=mill").at("machines").as_array().size(), 2u);
  expect_problem(ask("GET", "/api/months/march"), 400, "such as 2026-11");
  expect_problem(ask("GET", "/api/months/2027-01"), 404, "has not begun");
}

TEST_F(Served, AMonthIsPrintedAndTabulated) {
  make_failure(scene, 1);
  const Answer paper = ask("GET", "/api/months/2026-03/report.pdf?paper=letter&language=de");
  ASSERT_EQ(paper.status, 200) << paper.body;
  const formats::PdfReading read(paper.body);
  EXPECT_NEAR(read.page_size().width_mm, 215.9, 0.1);
  EXPECT_NE(read.text(1).find("Monat: März 2026"), std::string::npos);
  const Answer book = ask("GET", "/api/months/2026-03/report.xlsx");
  ASSERT_EQ(book.status, 200) << book.body;
  EXPECT_TRUE(book.body.starts_with("PK"));
  EXPECT_NE(book.head.find("month-2026-03.xlsx"), std::string::npos) << book.head;
  expect_problem(ask("GET", "/api/months/2026-03/report.pdf?paper=a5"), 400, "right is a4 or letter");
  expect_problem(ask("GET", "/api/months/2026-03/report.xlsx?language=fr"), 400, "right is en or de");
  expect_problem(ask("GET", "/api/months/2027-01/report.xlsx"), 404, "has not begun");
}

}  // namespace
}  // namespace hw::shop
