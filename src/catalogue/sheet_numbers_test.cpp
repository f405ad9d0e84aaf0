#include "src/catalogue/sheet_numbers.h"

#include <gtest/gtest.h>

namespace hw::catalogue {
namespace {

std::string split(std::string_view text) {
  const auto number = split_number(text);
  return number ? number->digits + "|" + number->word : "none";
}

TEST(SheetNumbers, SignsBlanksAndWordsAreTakenApart) {
  EXPECT_EQ(split("12,50 €"), "12,50|€");
  EXPECT_EQ(split("EUR -1.234,50"), "-1.234,50|eur");
  EXPECT_EQ(split("\u2212 1\u00A0234,5"), "-1234,5|");
  EXPECT_EQ(split("12'000.-"), "12000.|");
  EXPECT_EQ(split("5,-"), "5,|");
  EXPECT_EQ(split(".5"), ".5|");
  EXPECT_EQ(split("1e-05"), "1e-05|");
  EXPECT_EQ(split("14 Tage"), "14|tage");
  for (const auto* none : {"", "abc", "M8x20", "1 2", "2026-03-02", "R2/F3", "12 of 13"}) {
    EXPECT_EQ(split(none), "none") << none;
  }
}

TEST(SheetNumbers, TheDecimalSignIsToldByWhatCannotBeThousands) {
  for (const std::string_view point : {"1.5", "0.125", "1,234.5", "1,234,567", "1234.567", ".125", "1.2345"}) {
    EXPECT_EQ(sign_told_by(point), DecimalSign::point) << point;
  }
  for (const std::string_view comma : {"1,5", "0,125", "1.234,5", "1.234.567", "-1234,567"}) {
    EXPECT_EQ(sign_told_by(comma), DecimalSign::comma) << comma;
  }
  for (const std::string_view untold : {"1234", "1,234", "-12.345"}) {
    EXPECT_EQ(sign_told_by(untold), DecimalSign::untold) << untold;
  }
  EXPECT_EQ(sign_told_by(std::vector<std::string>{"1,234", "7,5", "12"}), DecimalSign::comma);
  EXPECT_EQ(sign_told_by(std::vector<std::string>{"1.5", "7,5"}), DecimalSign::untold);
}

TEST(SheetNumbers, AreReadAsTheirColumnHasThem) {
  EXPECT_EQ(read_digits("1,234", DecimalSign::comma), 1.234);
  EXPECT_EQ(read_digits("1,234", DecimalSign::point), 1234);
  EXPECT_EQ(read_digits("-1.234.567,5", DecimalSign::comma), -1234567.5);
  for (const auto* none : {"1,23", "12,34,567", ",", "1.2.3"}) {
    EXPECT_EQ(read_digits(none, DecimalSign::point), std::nullopt) << none;
  }
}

TEST(SheetNumbers, WhatIsPrintedCanBeReadInOneWayOnly) {
  for (const double number : {0.0, 1.234, 12.345, 999.999, 1234.567, 0.1, 1e-7, 4006381333931.0, 1e17, -3.125}) {
    for (const DecimalSign sign : {DecimalSign::point, DecimalSign::comma}) {
      const auto split = split_number(print_digits(number, sign));
      ASSERT_TRUE(split) << number;
      EXPECT_FALSE(has_two_ways(split->digits)) << split->digits;
      const auto told = sign_told_by(std::string_view(split->digits));
      EXPECT_EQ(read_digits(split->digits, told), number) << split->digits;
    }
  }
}

}  // namespace
}  // namespace hw::catalogue
