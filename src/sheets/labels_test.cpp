#include "src/sheets/labels.h"

#include <gtest/gtest.h>

#include "libs/formats/pdf_reading_test.h"
#include "src/sheets/label_parts.h"

namespace hw::sheets {
namespace {

TEST(Labels, NameKindAndCellInTheShopsWordsElseByTheirKeys) {
  service::ShopRecord shop;
  shop.kinds = {{"mill", "Machining centre"}};
  shop.cells = {{"north", "Cell North"}};
  catalogue::Machine machine;
  machine.key = "m01";
  machine.name = "Mill 1";
  machine.kind = "mill";
  machine.cell = "north";
  EXPECT_EQ(labelled(machine, shop).kind, "Machining centre");
  EXPECT_EQ(labelled(machine, shop).cell, "Cell North");
  machine.kind = "lathe";
  EXPECT_EQ(labelled(machine, shop).kind, "lathe");
}

using formats::MmBox;
using formats::PdfReading;

constexpr const char* server = "http://hourwright.shop.example:8470";
constexpr int office_printer_dpi = 300;
constexpr int label_printer_dpi = 203;  // 8 dots a millimetre, the coarse kind of label printer

std::string address_of(int number) { return fmt::format("{}/machine/m{:02}", server, number); }

LabelOrder order_of(int machines) {
  LabelOrder order;
  order.base_address = server;
  for (int i = 1; i <= machines; ++i) {
    order.machines.push_back(
        {fmt::format("m{:02}", i), fmt::format("Mill {}", i), "Machining centre, 3 axes", "Cell North"});
  }
  return order;
}

std::string print(const LabelOrder& order) {
  auto pdf = print_labels(order);
  EXPECT_TRUE(pdf) << pdf.error().message;
  return pdf.value_or("");
}

void expect_refused(const LabelOrder& order, ErrorCode code, std::string_view says) {
  const auto pdf = print_labels(order);
  ASSERT_FALSE(pdf) << says;
  EXPECT_EQ(pdf.error().code, code);
  EXPECT_NE(pdf.error().message.find(says), std::string::npos) << pdf.error().message;
}

bool is_within(const MmBox& inner, const MmBox& outer) {
  constexpr double near_mm = 0.05;
  return inner.left_mm >= outer.left_mm - near_mm && inner.right_mm() <= outer.right_mm() + near_mm &&
         inner.top_mm >= outer.top_mm - near_mm && inner.bottom_mm() <= outer.bottom_mm() + near_mm;
}

TEST(Labels, AnotherReaderFindsEachMachinesAddressAtItsPlaceOnTheSheet) {
  LabelOrder order = order_of(4);
  order.first_label = 22;
  const PdfReading reading(print(order));
  EXPECT_EQ(reading.pages(), 2);
  EXPECT_FALSE(reading.has_images());
  const auto places = place_labels(order.sheet, 22, 4).value();
  for (int i = 0; i < 4; ++i) {
    const auto& place = places[static_cast<std::size_t>(i)];
    EXPECT_EQ(reading.codes(place.page + 1, office_printer_dpi, place.box), std::vector{address_of(i + 1)});
  }
  EXPECT_TRUE(reading.codes(1, office_printer_dpi, MmBox{0, 0, 210, 12.5 + 7 * 34}).empty())
      << "used labels stay empty";
  EXPECT_EQ(reading.codes(1, office_printer_dpi).size(), 3u);
}

TEST(Labels, OnePerPageCanBeReadFromACoarsePrinter) {
  LabelOrder order = order_of(2);
  order.sheet = one_per_page({60, 40});
  const PdfReading reading(print(order));
  EXPECT_EQ(reading.pages(), 2);
  EXPECT_NEAR(reading.page_size().width_mm, 60, 0.05);
  EXPECT_EQ(reading.codes(1, label_printer_dpi), std::vector{address_of(1)});
  EXPECT_EQ(reading.codes(2, label_printer_dpi), std::vector{address_of(2)});
}

TEST(Labels, TheWordsSayWhoseLabelItIsAndWhatTheCodeHolds) {
  std::string all;
  for (const auto& word : PdfReading(print(order_of(1))).words(1)) all += word.text + " ";
  for (const std::string part : {"Mill 1 ", " m01 ", "Machining centre, 3 axes", "Cell North",
                                 "http://hourwright.shop.example:8470/machine/ m01"}) {
    EXPECT_NE(all.find(part), std::string::npos) << part << " in " << all;
  }
}

TEST(Labels, LongWordsAreShortenedWithinTheirOwnPlace) {
  LabelOrder order = order_of(2);
  const std::string long_words =
      "Horizontal machining centre with a pallet pool and a name that nobody can remember "
      "beyond the third word of it";
  order.machines[0] = {"m01", long_words, long_words, long_words + std::string(400, 'x')};
  const auto label = place_labels(order.sheet, 1, 1).value()[0].box;
  const LabelParts parts = place_parts(label);
  int shortened = 0;
  for (const auto& word : PdfReading(print(order)).words(1)) {
    if (!is_within(word.box, label)) continue;                                          // the second machine's
    shortened += word.text.find("beyond the third word") != std::string::npos ? 1 : 0;  // what an ellipsis stands for
    int owners = 0;
    for (const auto* part : {&parts.name, &parts.key, &parts.kind, &parts.cell, &parts.address}) {
      owners += is_within(word.box, part->box) ? 1 : 0;
    }
    EXPECT_EQ(owners, 1) << word.text;
  }
  EXPECT_EQ(shortened, 3);
}

TEST(Labels, TheSameOrderGivesTheSameBytes) {
  EXPECT_EQ(print(order_of(30)), print(order_of(30)));
  EXPECT_NE(print(order_of(1)), print(order_of(2)));
}

TEST(Labels, AddressesAreThoseOfTheMachinesPages) {
  EXPECT_EQ(machine_address("http://shop.example:8470", "m01"), "http://shop.example:8470/machine/m01");
  EXPECT_EQ(machine_address("https://shop.example/", "m01"), "https://shop.example/machine/m01");
  EXPECT_EQ(machine_address("http://10.0.0.7/hourwright/", "Mill 1/2"),
            "http://10.0.0.7/hourwright/machine/Mill%201%2F2");
  for (const auto* wrong : {"", "shop.example", "ftp://shop.example", "http://", "http://shop.example/?a=1",
                            "http://shop.example/#a", "http://a b/"}) {
    const auto address = machine_address(wrong, "m01");
    ASSERT_FALSE(address) << wrong;
    EXPECT_TRUE(address.error().message.starts_with("base: ")) << address.error().message;
  }
}

TEST(Labels, WhatCannotBePrintedSoThatItHelpsIsRefused) {
  expect_refused(order_of(0), ErrorCode::bad_input, "machines: there is none");
  expect_refused(order_of(1001), ErrorCode::too_large, "machines: 1001 labels");
  LabelOrder order = order_of(1);
  order.sheet.columns = 4;
  expect_refused(order, ErrorCode::bad_input, "columns: 4 of them need 269 mm");
  order = order_of(1);
  order.first_label = 25;
  expect_refused(order, ErrorCode::bad_input, "first_label");
  order = order_of(1);
  order.sheet = one_per_page({22, 22});
  expect_refused(order, ErrorCode::bad_input, "label_width_mm, label_height_mm: the code of http://");
  order = order_of(1);
  order.base_address += "/" + std::string(60, 'a');
  expect_refused(order, ErrorCode::bad_input, "does not fit below the code");
  order.base_address += std::string(2000, 'a');
  expect_refused(order, ErrorCode::too_large, "fits no QR code");
}

}  // namespace
}  // namespace hw::sheets
