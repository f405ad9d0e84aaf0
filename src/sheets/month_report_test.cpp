#include "src/sheets/month_report.h"

#include <gmock/gmock.h>

#include "libs/formats/pdf_reading_test.h"
#include "src/sheets/month_words.h"
#include "src/sheets/report_paper.h"
#include "src/sheets/report_workbook.h"

namespace hw::sheets {
namespace {

using testing::HasSubstr;

// T7-12 as a month of one machine, with 20 h that nobody knows of.
service::MonthView sample_month() {
  service::MonthView view;
  view.month = "2026-03";
  view.first = LocalDate::of(2026, 3, 1);
  view.last = LocalDate::of(2026, 3, 31);
  view.currency = "EUR";
  view.confidence = month::confidence;
  month::MonthSums& sums = view.sums;
  sums.machines = 1;
  sums.planned_h = 160;
  sums.operating_h = 131;
  sums.unknown_h = 20;
  sums.failures = 2;
  sums.between_h = 144;
  sums.repair_h = sums.corrective_h = 6.5;
  sums.stops_h = 5;
  for (const month::FigureNote& note : month::figure_notes) {
    service::MonthFigureView figure;
    figure.key = formats::print_word(note.key);
    figure.unit = note.unit;
    view.figures.push_back(std::move(figure));
  }
  view.figures[0].now.low = 0.81875;
  view.figures[0].now.high = 0.94375;
  view.figures[2].now.value.emplace(72);
  view.figures[2].now.at_least = 27.05;
  view.figures[6].now.value.emplace(0.5652);
  for (const std::size_t none : {1u, 3u, 4u, 5u, 7u, 8u, 9u, 10u}) view.figures[none].now.none = "no work";
  view.machines.push_back({"mill1", sums, 11.5});
  view.failures.push_back({.finding = "f",
                           .machine = "mill1",
                           .what = "=cmd() спиндель",
                           .found_at = {},
                           .settled_at = {},
                           .stood_h = 4,
                           .of_month = true,
                           .goes_on = true,
                           .operating_h = {}});
  for (int i = 0; i < 80; ++i)
    view.works.push_back({.entry = "e",
                          .machine = "mill1",
                          .task = "t",
                          .title = fmt::format("Task {}", i),
                          .by = "Ada",
                          .at = {},
                          .minutes = 45,
                          .measured = false,
                          .in_time = false,
                          .stop = {}});
  return view;
}

ReportNames sample_names() { return {"Test plant", Zone::utc(), {{"mill1", "Mill 1"}}}; }

TEST(MonthReport, IsReadBackFromPaperInBothLanguages) {
  const auto report = month_report(sample_month(), sample_names(), CardLanguage::english);
  const formats::PdfReading on_a4(print_report_paper(report, CardPaper::a4));
  EXPECT_GE(on_a4.pages(), 2) << "80 tasks are more than a page";
  EXPECT_NEAR(on_a4.page_size().height_mm, 297, 0.1);
  const std::string first = on_a4.text(1);
  for (const char* part :
       {"Month: March 2026", "Test plant", "81.9 % to 94.4 %", "72.0 h", "56.5 %", "no work was done"}) {
    EXPECT_THAT(first, HasSubstr(part));
  }
  std::string all;
  for (int page = 1; page <= on_a4.pages(); ++page) all += on_a4.text(page);
  EXPECT_THAT(all, HasSubstr("Task 79"));
  EXPECT_THAT(all, HasSubstr("goes on: Tasks done"));
  EXPECT_THAT(all, HasSubstr("from memory"));
  const auto in_german = month_report(sample_month(), sample_names(), CardLanguage::german);
  const formats::PdfReading on_letter(print_report_paper(in_german, CardPaper::letter));
  EXPECT_NEAR(on_letter.page_size().width_mm, 215.9, 0.1);
  EXPECT_THAT(on_letter.text(1), HasSubstr("Monat: März 2026"));
  EXPECT_THAT(on_letter.text(1), HasSubstr("81,9 % bis 94,4 %"));
}

TEST(MonthReport, TheSameMonthGivesTheSameBytes) {
  const auto report = month_report(sample_month(), sample_names(), CardLanguage::english);
  EXPECT_EQ(print_report_paper(report, CardPaper::a4), print_report_paper(report, CardPaper::a4));
  EXPECT_EQ(*print_report_workbook(report), *print_report_workbook(report));
}

TEST(MonthReport, TablesHaveACellForEachColumn) {
  auto month = sample_month();
  month.sums_before = month.sums;
  for (const auto language : {CardLanguage::english, CardLanguage::german}) {
    for (const ReportTable& table : month_report(month, sample_names(), language).tables) {
      EXPECT_LE(table.title.size(), 31u) << "a sheet's name";
      EXPECT_TRUE(!table.rows.empty() || !table.none.empty()) << table.title;
      for (const auto& row : table.rows) EXPECT_EQ(row.size(), table.columns.size()) << table.title;
    }
  }
}

}  // namespace
}  // namespace hw::sheets
