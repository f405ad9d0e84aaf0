#include "src/sheets/job_card.h"

#include <cctype>
#include <cmath>

#include <gtest/gtest.h>

#include "libs/formats/pdf_reading_test.h"
#include "src/catalogue/isolation_steps.h"
#include "src/sheets/card_marks.h"
#include "src/sheets/card_rows.h"
#include "src/sheets/card_sections.h"
#include "src/sheets/sample_card_test.h"

namespace hw::sheets {
namespace {

using formats::MmBox;
using formats::PdfReading;

std::string printed(const JobCard& card, CardPaper paper = CardPaper::a4,
                    CardLanguage language = CardLanguage::english) {
  auto pdf = print_job_card(card, paper, language);
  EXPECT_TRUE(pdf.has_value()) << pdf.error().message;
  return pdf.value_or("");
}

std::string all_text(const PdfReading& reading) {
  std::string all;
  for (int page = 1; page <= reading.pages(); ++page) all += reading.text(page);
  return all;
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// Words as pdftotext parts them: broken lines come apart at blanks only.
void expect_all(const std::string& text, const std::vector<std::string>& parts) {
  for (const auto& part : parts) EXPECT_TRUE(has(text, part)) << part << " in " << text.substr(0, 3000);
}

TEST(JobCard, APageHasTheSizeOfItsPaper) {
  const JobCard card = card_of("lathe", 3);
  const auto a4 = PdfReading(printed(card)).page_size();
  EXPECT_NEAR(a4.width_mm, 210, 0.1);
  EXPECT_NEAR(a4.height_mm, 297, 0.1);
  const auto letter = PdfReading(printed(card, CardPaper::letter)).page_size();
  EXPECT_NEAR(letter.width_mm, 215.9, 0.1);
  EXPECT_NEAR(letter.height_mm, 279.4, 0.1);
}

TEST(JobCard, TheCodeLeadsBackToTheStop) {
  const JobCard card = card_of("lathe", 3);
  for (const auto paper : {CardPaper::a4, CardPaper::letter}) {
    EXPECT_EQ(PdfReading(printed(card, paper)).codes(1, 300), std::vector{card.address});
  }
}

TEST(JobCard, SaysWhichStopItIsAndWhatStandsOnEachTask) {
  const JobCard card = card_of("lathe", 12);
  const std::string text = all_text(PdfReading(printed(card)));
  expect_all(text, {"Long Tom", "m07", "Sat 28 Nov 2026", "early, 06:00–14:00", "Ada, Mon 23 Nov 2026", "4 h 05 min"});
  for (const auto& task : card.tasks) {
    expect_all(text, {task.title});
    expect_all(text, task.steps);
  }
}

TEST(JobCard, TasksAreNumberedInTheOrderOfWork) {
  const JobCard card = card_of("lathe", 12);
  const PdfReading reading(printed(card));
  constexpr double numbers_left_mm = 23.8;
  std::vector<std::string> numbers;
  std::vector<std::string> in_order;
  for (int page = 1; page <= reading.pages(); ++page) {
    for (const auto& word : reading.words(page)) {
      if (std::abs(word.box.left_mm - numbers_left_mm) < 0.3 && std::isdigit(word.text[0]) != 0)
        numbers.push_back(word.text);
    }
  }
  for (int number = 1; number <= 12; ++number) in_order.push_back(std::to_string(number));
  EXPECT_EQ(numbers, in_order);
}

TEST(JobCard, AnIsolatedStopHasEveryStepPointAndStoredEnergyInItsLanguage) {
  JobCard card = card_of("horizontal-mill", 43);
  const std::string in_english = all_text(PdfReading(printed(card)));
  const std::string in_german_words = all_text(PdfReading(printed(card, CardPaper::a4, CardLanguage::german)));
  for (const auto& point : card.isolation.points) {
    EXPECT_TRUE(has(in_english, point.title)) << point.title;
    EXPECT_TRUE(has(in_german_words, point.title_de)) << point.title_de;
  }
  for (const auto& stored : card.isolation.stored) {
    EXPECT_TRUE(has(in_english, stored.title.substr(0, stored.title.find(' ')))) << stored.title;
    EXPECT_TRUE(has(in_german_words, stored.title_de.substr(0, stored.title_de.find(' ')))) << stored.title_de;
  }
  expect_all(in_english,
             {"Wait at least 15 min", "off at", "not before", "off at, by the same person", "Back from isolation"});
  expect_all(in_german_words, {"Mindestens 15 min warten", "Zurück aus der Trennung", "freigeschaltet und gesichert"});
  for (const auto& step : catalogue::isolation_steps()) {
    EXPECT_TRUE(has(in_english, std::string{step.text.substr(0, 24)})) << step.code;
  }
}

TEST(JobCard, WithoutAnIsolatedTaskItSaysSoAndHasNoBlanksForLocks) {
  JobCard card = card_of("lathe", 3);
  std::erase_if(card.tasks, [](const auto& task) { return task.energy == catalogue::EnergyState::isolated; });
  plan_phases(card);
  const std::string text = all_text(PdfReading(printed(card)));
  expect_all(text, {"No task of this card is done locked out", "Main switch", "builder's manual"});
  EXPECT_FALSE(has(text, "by the same person"));
}

TEST(JobCard, AMachineWhosePointsNobodyWroteDownIsToldFromItsManual) {
  JobCard card = card_of("lathe", 20);
  card.isolation = {};
  expect_all(all_text(PdfReading(printed(card))), {"Nobody has written down this machine's isolation points"});
}

TEST(JobCard, AReadingHasItsLimitsUnitAndABlank) {
  JobCard card = card_of("lathe", 1);
  card.tasks[0].readings = {{"pH", "pH", {8.5, 9.3}, {8.0, {}}}, {"supply air", "bar", {5.5, {}}, {}}};
  card.tasks[0].quantity_unit = "l";
  card.tasks[0].work = catalogue::WorkType::top_up;
  expect_all(all_text(PdfReading(printed(card))),
             {"8.5 to 9.3, act below 8", "at least 5.5", "bar", "Filled in", "As found", "good", "worn", "failed"});
}

TEST(JobCard, PagesAreNumberedWithTheirCount) {
  for (const std::size_t tasks : {1u, 9u, 60u}) {
    const PdfReading reading(printed(card_of("horizontal-mill", tasks), CardPaper::letter));
    for (int page = 1; page <= reading.pages(); ++page) {
      EXPECT_TRUE(has(reading.text(page), fmt::format("{} of {} ", page, reading.pages()))) << page;
    }
    EXPECT_GE(reading.pages(), tasks == 60 ? 10 : 1);
  }
}

TEST(JobCard, NothingStandsOutsideOfThePagesMargins) {
  JobCard card = card_of("mill-turn", 44);
  card.machine.name = std::string(300, 'W');
  card.tasks[3].title =
      "A title as long as a title may be, so that it has to be broken into several lines beside its "
      "place, which is long too";
  card.tasks[4].steps = {std::string(5000, 'x'), "A last step."};
  const PdfReading reading(printed(card));
  const auto size = reading.page_size();
  for (int page = 1; page <= reading.pages(); ++page) {
    for (const auto& word : reading.words(page)) {
      EXPECT_GE(word.box.left_mm, 16.5) << page << " " << word.text;
      EXPECT_LE(word.box.right_mm(), size.width_mm - 9.5) << page << " " << word.text.substr(0, 40);
      EXPECT_LE(word.box.bottom_mm(), size.height_mm - 6) << page << " " << word.text;
      EXPECT_GE(word.box.top_mm, 8) << page << " " << word.text;
    }
  }
}

TEST(JobCard, ATaskLongerThanAPageGoesOnUnderItsName) {
  JobCard card = card_of("lathe", 1);
  card.tasks[0].title = "Take everything apart";
  card.tasks[0].steps.clear();
  for (int i = 1; i <= 120; ++i) card.tasks[0].steps.push_back(fmt::format("Loosen screw number {}.", i));
  const PdfReading reading(printed(card));
  ASSERT_GE(reading.pages(), 3);
  for (int page = 2; page < reading.pages(); ++page) {
    EXPECT_TRUE(has(reading.text(page), "goes on: 1 Take everything apart")) << page;
  }
  const std::string text = all_text(reading);
  for (const auto& step : card.tasks[0].steps) EXPECT_TRUE(has(text, step)) << step;
}

TEST(JobCard, AHeadingNeverStandsAloneAtThePagesFoot) {
  // Another length of the note moves the headings to every height of the page.
  for (int lines = 0; lines < 40; ++lines) {
    JobCard card = card_of("vertical-mill", 4);
    for (int i = 0; i < lines; ++i)
      card.note += "This is one more line of a note that is about as wide as the whole page is, nearly. ";
    const PdfReading reading(printed(card));
    for (int page = 1; page < reading.pages(); ++page) {
      const auto words = reading.words(page);
      double heading_mm = 0;
      double lowest_mm = 0;
      for (const auto& word : words) {
        if (word.box.bottom_mm() > 281) continue;  // the foot's own line
        lowest_mm = std::max(lowest_mm, word.box.bottom_mm());
        if (word.box.height_mm > 4.2) heading_mm = std::max(heading_mm, word.box.bottom_mm());
      }
      EXPECT_GT(lowest_mm, heading_mm + 2) << "note of " << lines << " lines, page " << page;
    }
  }
}

TEST(JobCard, CyrillicAndChineseJapaneseAndKoreanComeBackFromTheFile) {
  JobCard card = card_of("lathe", 2);
  card.machine.name = "Станок 立式加工中心";
  card.agreed_by = "Юлия";
  card.tasks[0].title = "検査する";
  card.tasks[1].steps = {"선반을 청소한다", "Öl nachfüllen"};
  card.note = "品質管理";
  expect_all(all_text(PdfReading(printed(card))),
             {"Станок", "立式加工中心", "Юлия", "検査する", "선반을 청소한다", "Öl nachfüllen", "品質管理"});
}

TEST(JobCard, AStopThatIsOverSaysSoOnTop) {
  JobCard card = card_of("lathe", 2);
  card.state = CardState::withdrawn;
  expect_all(PdfReading(printed(card)).text(1), {"withdrawn. Do not work by this card"});
  card.state = CardState::closed;
  expect_all(PdfReading(printed(card)).text(1), {"closed already"});
}

TEST(JobCard, TheSameCardGivesTheSameBytes) {
  EXPECT_EQ(printed(card_of("lathe", 9)), printed(card_of("lathe", 9)));
  EXPECT_NE(printed(card_of("lathe", 9)), printed(card_of("lathe", 8)));
}

TEST(JobCard, WhatIsNoCardIsRefusedWithTheField) {
  const auto message = [](const JobCard& card) {
    return print_job_card(card, CardPaper::a4, CardLanguage::english).error().message;
  };
  JobCard card = card_of("lathe", 2);
  card.phases[0].works.push_back({"no-such-task", 1, 0, false, {}});
  EXPECT_TRUE(has(message(card), "no-such-task"));
  card = card_of("lathe", 2);
  for (auto& phase : card.phases) phase.works.clear();
  EXPECT_TRUE(has(message(card), card.tasks[0].key));
  card.tasks.clear();
  EXPECT_TRUE(has(message(card), "no work"));
  card = card_of("lathe", 2);
  card.address = "shop";
  EXPECT_TRUE(has(message(card), "address"));
  card.address = "http://shop.example/stop/" + std::string(800, 'a');
  EXPECT_TRUE(has(message(card), "too long"));
}

}  // namespace
}  // namespace hw::sheets
