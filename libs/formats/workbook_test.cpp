#include "libs/formats/workbook.h"

#include <cstdio>
#include <cstdlib>
#include <fstream>

#include <gtest/gtest.h>

#include "tests/places/places.h"

namespace hw::formats {
namespace {

// What Python's own zipfile and XML reader find in the workbook: one line a cell, "sheet line column text".
std::string read_back(const std::string& bytes) {
  const std::string book = testing::TempDir() + "workbook_test.xlsx";
  std::ofstream(book, std::ios::binary) << bytes;
  const std::string program = in_source("libs/formats/read_workbook.py");
  FILE* pipe = ::popen(("python3 " + program + " " + book + " 2>&1").c_str(), "r");
  std::string said;
  for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) said.push_back(static_cast<char>(c));
  EXPECT_EQ(::pclose(pipe), 0) << said;
  return said;
}

std::vector<WorkSheet> two_sheets() {
  return {{"Hours",
           {20, 10},
           {"What", "h"},
           {{"=1+1", SheetNumber{131.25}}, {"Fräse & <Co>", SheetNumber{0.5, NumberLook::percent}}}},
          {"Empty", {}, {"Nothing"}, {}}};
}

TEST(Workbook, IsReadBackByAnotherProgram) {
  EXPECT_EQ(read_back(*print_workbook("Month", two_sheets())),
            "Hours A1 text What\nHours B1 text h\nHours A2 text =1+1\nHours B2 number 131.25\n"
            "Hours A3 text Fräse & <Co>\nHours B3 number 0.5\nEmpty A1 text Nothing\n");
}

TEST(Workbook, TheSameSheetsGiveTheSameBytes) {
  EXPECT_EQ(*print_workbook("Month", two_sheets()), *print_workbook("Month", two_sheets()));
}

TEST(Workbook, RefusesATextThatNoCellHolds) {
  const auto refused = print_workbook("x", {{"s", {}, {"h"}, {{std::string(40'000, 'a')}}}});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ErrorCode::bad_input);
}

}  // namespace
}  // namespace hw::formats
