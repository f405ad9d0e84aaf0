#include "src/sheets/order_list.h"

#include <gmock/gmock.h>

#include "libs/formats/pdf_reading_test.h"
#include "libs/formats/sheet.h"
#include "src/sheets/order_words.h"

namespace hw::sheets {
namespace {

using testing::HasSubstr;

std::vector<OrderList> sample_orders() {
  OrderList filters{.plant = "Small plant",
                    .supplier = "Filter Meier",
                    .on = LocalDate::of(2026, 11, 26),
                    .reference = "B-17",
                    .currency = "EUR",
                    .note = "Tor 3",
                    .lines = {{"F-104", "Rücklauffilter", "RF 10", 4, "piece", 12.5, LocalDate::of(2026, 11, 28)},
                              {"F-105", "=cmd()", "", 2.5, "l", 0.1234, {}}}};
  OrderList rest{.plant = "Small plant",
                 .supplier = "",
                 .on = filters.on,
                 .reference = "",
                 .currency = "EUR",
                 .note = "",
                 .lines = {{"B-1", "Belt", "", 1, "piece", {}, {}}}};
  return {filters, rest};
}

TEST(OrderList, IsReadBackFromPaperInBothLanguages) {
  const formats::PdfReading in_english(print_order_paper(sample_orders(), CardLanguage::english, CardPaper::a4));
  EXPECT_EQ(in_english.pages(), 1);
  for (const auto* part : {"Order", "Small plant, Thu 26 Nov 2026", "Filter Meier", "RF 10", "F-104", "Rücklauffilter",
                           "12.50", "50.00", "0.1234", "Sat 28 Nov 2026", "Sum (EUR)", "50.31",
                           "Our order number: B-17", "Tor 3", "No supplier known", "Belt"}) {
    EXPECT_THAT(in_english.text(1), HasSubstr(part));
  }
  const formats::PdfReading in_german(print_order_paper(sample_orders(), CardLanguage::german, CardPaper::letter));
  EXPECT_NEAR(in_german.page_size().width_mm, 215.9, 0.1);
  for (const auto* part : {"Bestellung", "Do 26.11.2026", "12,50", "Gewünscht", "Kein Lieferant bekannt"}) {
    EXPECT_THAT(in_german.text(1), HasSubstr(part));
  }
}

TEST(OrderList, IsATableForProgramsThatRunsNothing) {
  EXPECT_EQ(print_order_csv(sample_orders(), CardLanguage::german),
            "\xEF\xBB\xBFLieferant;Auftragsnummer;Tag;Ihre Nummer;Unsere "
            "Nummer;Bezeichnung;Menge;Einheit;Preis;Gewünscht bis\r\n"
            "Filter Meier;B-17;2026-11-26;RF 10;F-104;Rücklauffilter;4;piece;\"12,5\";2026-11-28\r\n"
            "Filter Meier;B-17;2026-11-26;;F-105;'=cmd();\"2,5\";l;\"0,1234\";\r\n"
            ";;2026-11-26;;B-1;Belt;1;piece;;\r\n");
  const auto book = formats::read_sheet(print_order_workbook(sample_orders(), CardLanguage::english).value()).value();
  EXPECT_EQ(book.rows.size(), 4u);
  EXPECT_EQ(book.rows[1].cells[6].number, 4);
  EXPECT_EQ(book.rows[2].cells[5].text, "=cmd()");
}

TEST(OrderList, IsTheTextOfAMail) {
  const auto orders = sample_orders();
  EXPECT_EQ(
      print_order_mail(std::span(orders).first(1), CardLanguage::english),
      "Order of Small plant, Thu 26 Nov 2026\n\nGood day,\n\nplease deliver to Small plant:\n\n"
      "- 4 piece: RF 10, Rücklauffilter (our number F-104), wanted by Sat 28 Nov 2026\n"
      "- 2.5 l: =cmd() (our number F-105)\n\nPlease confirm the day of delivery.\nOur order number: B-17\n\nTor 3\n\n"
      "Kind regards\nSmall plant\n");
  const std::string both = print_order_mail(orders, CardLanguage::german);
  EXPECT_THAT(both, HasSubstr("== Filter Meier ==\n\nBestellung von Small plant"));
  EXPECT_THAT(both, HasSubstr("== Kein Lieferant bekannt ==\n\n"));
  EXPECT_EQ(print_order_mail({}, CardLanguage::german), "Es ist nichts zu bestellen.\n");
  EXPECT_EQ(order_words(CardLanguage::german).order, "Bestellung");
}

}  // namespace
}  // namespace hw::sheets
