// The job card of a stop over the wire.

#include <gmock/gmock.h>

#include "libs/formats/pdf_reading_test.h"
#include "tests/shop/served.h"

namespace hw::shop {
namespace {

const std::string card_path = "/api/stops/" + id_of(1) + "/card.pdf";

std::string card_stop_body() {
  return fmt::format(
      R"({{"id":"{}","by":"Ada","on":"2026-03-04","shift":"early","tasks":["filter","grease"],"note":"Крана нет"}})",
      id_of(1));
}

TEST_F(Served, AJobCardLeadsBackToItsStopAndSaysWhoseItIs) {
  ASSERT_EQ(ask("POST", "/api/machines/mill1/stops", card_stop_body()).status, 200);
  const Answer card = ask("GET", card_path + "?base=http://shop.example:8470");
  ASSERT_EQ(card.status, 200) << card.body;
  EXPECT_NE(card.head.find("Content-Type: application/pdf"), std::string::npos) << card.head;
  const formats::PdfReading read(card.body);
  EXPECT_NEAR(read.page_size().height_mm, 297, 0.1);
  EXPECT_EQ(read.codes(1, 300), std::vector<std::string>{"http://shop.example:8470/stop/" + id_of(1)});
  EXPECT_EQ(ask("GET", "/stop/" + id_of(1)).body, index_html);
  const std::string text = read.text(1);
  for (const auto* part : {"Mill 1", "mill1", "Wed 4 Mar 2026", "06:00–14:00", "Ada", "Крана нет"}) {
    EXPECT_NE(text.find(part), std::string::npos) << part << " in " << text;
  }
}

TEST_F(Served, AJobCardIsPrintedOnLetterPaperAndInGerman) {
  ask("POST", "/api/machines/mill1/stops", card_stop_body());
  const formats::PdfReading read(ask("GET", card_path + "?paper=letter&language=de").body);
  EXPECT_NEAR(read.page_size().width_mm, 215.9, 0.1);
  EXPECT_NE(read.text(1).find("Arbeitskarte"), std::string::npos);
  EXPECT_NE(read.text(1).find("Mi 04.03.2026"), std::string::npos);
  EXPECT_THAT(read.codes(1, 300), testing::ElementsAre(testing::EndsWith("/stop/" + id_of(1))));
}

TEST_F(Served, AJobCardThatCannotBeIsRefused) {
  expect_problem(ask("GET", card_path), 404, "stop");
  ask("POST", "/api/machines/mill1/stops", card_stop_body());
  expect_problem(ask("GET", card_path + "?paper=a5"), 400, "right is a4 or letter");
  expect_problem(ask("GET", card_path + "?language=fr"), 400, "right is en or de");
  expect_problem(ask("GET", card_path + "?base=shop"), 400, "base");
}

}  // namespace
}  // namespace hw::shop
