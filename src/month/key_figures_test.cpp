#include "src/month/key_figures.h"

#include <cmath>
#include <random>

#include <gtest/gtest.h>

#include "src/month/calendar_month.h"
#include "src/month/figure_notes.h"
#include "src/month/month_sums.h"

namespace hw::month {
namespace {

KeyFigure figure_of(const MonthSums& sums, FigureKey key) {
  return key_figures(sums).at(static_cast<std::size_t>(key));
}

MonthSums example() {
  MonthSums sums;
  sums.machines = 1;
  sums.planned_h = 160;
  sums.operating_h = 131;
  sums.failures = 2;
  sums.between_h = 144;
  sums.repair_h = sums.corrective_h = 6.5;
  sums.stops_h = 5;
  return sums;
}

TEST(KeyFigures, StandInTheOrderOfTheirKeysWithANoteEach) {
  const auto figures = key_figures(example());
  ASSERT_EQ(figures.size(), figure_count);
  for (std::size_t i = 0; i < figures.size(); ++i) {
    EXPECT_EQ(static_cast<std::size_t>(figures[i].key), i);
    EXPECT_EQ(figure_notes[i].key, figures[i].key);
    EXPECT_FALSE(figure_notes[i].definition.empty());
    EXPECT_FALSE(figure_notes[i].standard.from_memory.empty());
  }
}

TEST(KeyFigures, WithoutAFailureHaveNoMeanButALowerBound) {
  MonthSums sums = example();
  sums.failures = 0;
  sums.repair_h = 0;
  const KeyFigure mtbf = figure_of(sums, FigureKey::mtbf_by_failures);
  EXPECT_FALSE(mtbf.value || mtbf.low);
  EXPECT_EQ(mtbf.none, NoValue::no_failure);
  EXPECT_NEAR(*mtbf.at_least, 144 / -std::log(1 - confidence), 1e-9);
  EXPECT_EQ(figure_of(sums, FigureKey::mttr_by_iso_22400).none, NoValue::no_failure);
  EXPECT_EQ(figure_of(sums, FigureKey::technical_availability).value, 1);
}

TEST(KeyFigures, UnknownTimeLeavesARangeAndIsNeverTakenForStanding) {
  MonthSums sums = example();
  sums.unknown_h = 20;
  const KeyFigure one = figure_of(sums, FigureKey::availability);
  EXPECT_FALSE(one.value);
  EXPECT_NEAR(*one.low, 131.0 / 160, 1e-12);
  EXPECT_NEAR(*one.high, 151.0 / 160, 1e-12);
  sums.unknown_h = 400;
  EXPECT_EQ(figure_of(sums, FigureKey::availability).high, 1);
  const KeyFigure mtbf = figure_of(sums, FigureKey::mtbf_by_failures);
  EXPECT_EQ(mtbf.low, 72);
  EXPECT_EQ(mtbf.high, 272);
  sums.operating_h = 0;
  EXPECT_EQ(figure_of(sums, FigureKey::availability).none, NoValue::no_hours);
}

TEST(KeyFigures, SayWhyThereIsNoValue) {
  const MonthSums nothing;
  const std::vector<NoValue> reasons = {NoValue::nothing_planned, NoValue::no_hours,   NoValue::no_failure,
                                        NoValue::no_failure,      NoValue::no_failure, NoValue::no_failure,
                                        NoValue::nothing_stood,   NoValue::no_work,    NoValue::no_task,
                                        NoValue::no_round,        NoValue::no_cost};
  for (const KeyFigure& one : key_figures(nothing)) {
    EXPECT_EQ(one.none, reasons.at(static_cast<std::size_t>(one.key)));
    EXPECT_FALSE(one.value || one.low || one.high || one.at_least);
  }
  MonthSums nights = example();
  nights.operating_h = 200;
  EXPECT_EQ(figure_of(nights, FigureKey::availability).none, NoValue::more_than_planned);
}

TEST(KeyFigures, ARepairThatGoesOnGivesALeastTimeOnly) {
  MonthSums sums = example();
  sums.repairs_going_on = 1;
  const KeyFigure mttr = figure_of(sums, FigureKey::mttr_by_failures);
  EXPECT_FALSE(mttr.value || mttr.high);
  EXPECT_EQ(mttr.low, 3.25);
}

TEST(KeyFigures, Property_SharesAreFrom0To1AndSumsOfMachinesLieBetweenThem) {
  std::mt19937_64 random(7);
  const auto draw = [&](double most) { return std::uniform_real_distribution<double>(0, most)(random); };
  for (int round = 0; round < 200; ++round) {
    MonthSums all;
    double lowest = 1, highest = 0;
    for (int machine = 0; machine < 3; ++machine) {
      MonthSums one = example();
      one.planned_h = 1 + draw(300);
      one.operating_h = draw(one.planned_h);
      one.work_h = draw(40);
      one.work_in_stops_h = draw(one.work_h);
      one.care_cost = draw(1000);
      one.failure_cost = draw(1000);
      const double share = *figure_of(one, FigureKey::availability).value;
      lowest = std::min(lowest, share);
      highest = std::max(highest, share);
      all += one;
    }
    ASSERT_TRUE(check(all));
    ASSERT_EQ(all.machines, 3);
    const double share = *figure_of(all, FigureKey::availability).value;
    ASSERT_GE(share, lowest - 1e-12);
    ASSERT_LE(share, highest + 1e-12);
    for (const KeyFigure& figure : key_figures(all)) {
      if (note_of(figure.key).unit == "1" && figure.value) {
        ASSERT_TRUE(*figure.value >= 0 && *figure.value <= 1);
      }
    }
    ASSERT_EQ(*figure_of(all, FigureKey::mtbf_by_iso_22400).value, 3 * 144.0 / (6 + 3)) << "each with its FE + 1";
  }
}

TEST(MonthSums, RefuseWhatCannotBe) {
  MonthSums sums = example();
  sums.between_h = -1;
  EXPECT_EQ(check(sums).error().message, "between_h: -1 cannot be; right is 0 or more");
  sums = example();
  sums.work_h = 1;
  sums.work_in_stops_h = 2;
  EXPECT_FALSE(check(sums));
  sums = example();
  sums.turns_walked = 1;
  EXPECT_FALSE(check(sums));
}

TEST(CalendarMonth, ReadsAYearAndAMonthAndNothingElse) {
  const CalendarMonth february = *parse_month("2028-02");
  EXPECT_EQ(hw::print(february.last()), "2028-02-29");
  EXPECT_EQ(print(february.before()), "2028-01");
  EXPECT_EQ(month_of(*parse_local_date("2028-02-17")), february);
  EXPECT_EQ(print(february.after()), "2028-03");
  for (const char* wrong : {"", "2028-13", "2028-2", "2028-02-01", "28-02", "2028-00", "now", "2028/02"}) {
    const auto month = parse_month(wrong);
    ASSERT_FALSE(month) << wrong;
    EXPECT_EQ(month.error().saying->code, "no-month");
  }
}

}  // namespace
}  // namespace hw::month
