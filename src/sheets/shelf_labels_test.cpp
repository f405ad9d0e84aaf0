#include "src/sheets/shelf_labels.h"

#include <gmock/gmock.h>

#include "libs/formats/pdf_reading_test.h"
#include "src/sheets/label_drawing.h"

namespace hw::sheets {
namespace {

using testing::HasSubstr;

ShelfLabelOrder shelf_order(std::vector<ShelfPart> parts) {
  ShelfLabelOrder order;
  order.base_address = "http://shop.example:8470";
  order.parts = std::move(parts);
  return order;
}

TEST(ShelfLabels, ACodeOpensThePartsPageAndTheNumberIsLarge) {
  const formats::PdfReading reading(
      print_shelf_labels(shelf_order({{"F-104", "Rücklauffilter 10 µm", "R2/F3"}, {"Öl 7", "Bettbahnöl", ""}}))
          .value());
  EXPECT_THAT(reading.codes(1, 300), testing::UnorderedElementsAre("http://shop.example:8470/stores/F-104",
                                                                   "http://shop.example:8470/stores/%C3%96l%207"));
  EXPECT_FALSE(reading.has_images());
  const std::string text = reading.text(1);
  for (const auto* part : {"F-104", "Rücklauffilter", "R2/F3", "Öl 7", "Bettbahnöl"})
    EXPECT_THAT(text, HasSubstr(part));
  double number_mm = 0, title_mm = 0;
  for (const auto& word : reading.words(1)) {
    if (word.text == "F-104") number_mm = std::max(number_mm, word.box.height_mm);
    if (word.text == "Rücklauffilter") title_mm = word.box.height_mm;
  }
  EXPECT_GT(number_mm, 1.5 * title_mm);
}

TEST(ShelfLabels, ALongNumberIsNeverCutShort) {
  const std::string number = "RF-0815-4711-0815-4711-0815-4711-0815-47";
  const auto pdf = print_shelf_labels(shelf_order({{number, std::string(300, 'x'), std::string(100, 'y')}}));
  ASSERT_TRUE(pdf) << pdf.error().message;
  std::string text = formats::PdfReading(*pdf).text(1);
  std::erase(text, ' ');
  EXPECT_THAT(text, HasSubstr(number));
  ShelfLabelOrder small = shelf_order({{number, "t", "p"}});
  small.sheet = one_per_page({22, 22});
  EXPECT_FALSE(print_shelf_labels(small));
  EXPECT_THAT(print_shelf_labels(shelf_order({})).error().message, HasSubstr("parts: there is none"));
}

TEST(ShelfLabels, ComeInTheOrderOfTheWalkAlongTheShelves) {
  std::vector<catalogue::StoredPart> parts(3);
  parts[0].number = "C";
  parts[1].number = "B";
  parts[1].place = "R2";
  parts[2].number = "A";
  parts[2].place = "R2";
  const auto shelves = shelf_parts(parts);
  EXPECT_EQ(shelves[0].key + shelves[1].key + shelves[2].key, "ABC");
}

TEST(LabelDrawing, AddressesAreThoseOfPages) {
  EXPECT_EQ(page_address("http://shop.example/", "/stores/", "a?b"), "http://shop.example/stores/a%3Fb");
}

}  // namespace
}  // namespace hw::sheets
