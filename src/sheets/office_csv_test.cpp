#include "src/sheets/office_csv.h"

#include <gtest/gtest.h>

namespace hw::sheets {
namespace {

TEST(OfficeCsv, HasTheSignsOfTheCountry) {
  const std::vector<std::string> headings{"a", "b"};
  const std::vector<std::vector<std::string>> rows{{"x;y", "z,w"}};
  EXPECT_EQ(print_office_csv(headings, rows, CardLanguage::german),
            "\xEF\xBB\xBF"
            "a;b\r\n\"x;y\";\"z,w\"\r\n");
  EXPECT_EQ(print_office_csv(headings, rows, CardLanguage::english),
            "\xEF\xBB\xBF"
            "a,b\r\n\"x;y\",\"z,w\"\r\n");
  EXPECT_EQ(office_number(2.5, CardLanguage::german), "2,5");
  EXPECT_EQ(office_number(1.234, CardLanguage::english), "1.2340");
}

}  // namespace
}  // namespace hw::sheets
