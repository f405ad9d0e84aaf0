#include "src/terminal/labels_command.h"

#include <fstream>
#include <iterator>

#include "libs/formats/pdf_reading_test.h"
#include "libs/sql/test_folder.h"
#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

class LabelsCommand : public testing::Test {
 protected:
  LabelsCommand() {
    entrances.look_into = [](const std::string& data) -> Result<service::ShopWithMachines> {
      if (data != "d") return refuse(ErrorCode::not_found, "{}: there is no shop here", data);
      service::ShopWithMachines shop;
      shop.machines.resize(2);
      shop.machines[0].machine.key = "m01";
      shop.machines[1].machine.key = "m02";
      return shop;
    };
  }
  std::string file() const { return (folder.path() / "labels.pdf").string(); }
  Called labels(std::vector<std::string> more) const {
    std::vector<std::string> words{"labels", "--data", "d", "--base", "http://shop.example:8470"};
    words.insert(words.end(), more.begin(), more.end());
    words.push_back(file());
    return call(words, entrances);
  }
  std::string written() const {
    std::ifstream in(file(), std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }

  sql::TestFolder folder;
  Entrances entrances;
};

TEST_F(LabelsCommand, WritesTheLabelsOfAllMachines) {
  const Called called = labels({});
  EXPECT_EQ(called.exit_status, 0) << called.errors;
  EXPECT_EQ(called.output, file() + ": 2 labels\n");
  const formats::PdfReading pdf(written());
  EXPECT_EQ(pdf.pages(), 1);
  EXPECT_EQ(pdf.codes(1, 300).size(), 2u);
}

TEST_F(LabelsCommand, TakesTheNumbersOfTheApi) {
  const Called called = labels({"--layout", "single", "--machines", "m02,m01,m02", "--label-width-mm", "70"});
  EXPECT_EQ(called.exit_status, 0) << called.errors;
  const formats::PdfReading pdf(written());
  EXPECT_EQ(pdf.pages(), 3);
  EXPECT_NEAR(pdf.page_size().width_mm, 70, 0.05);
  EXPECT_EQ(pdf.codes(2, 203), std::vector<std::string>{"http://shop.example:8470/machine/m01"});
}

TEST_F(LabelsCommand, WhatWouldNotFitIsRefusedAndNothingIsWritten) {
  expect_refused(labels({"--columns", "4"}), 1, "columns: 4 of them need 269 mm");
  expect_refused(labels({"--pitch-x-mm", "66,0"}), 1, "pitch_x_mm: \"66,0\" is no number");
  expect_refused(labels({"--machines", "m09"}), 1, "there is no machine \"m09\"");
  expect_refused(labels({"--layout", "single", "--rows", "2"}), 1, "rows: there is no such parameter");
  EXPECT_FALSE(std::filesystem::exists(file()));
}

TEST_F(LabelsCommand, CalledWronglySaysWhatIsMissing) {
  expect_refused(call({"labels", "--data", "d", "out.pdf"}, entrances), 2, "--base");
  expect_refused(call({"labels", "--base", "http://shop.example", "out.pdf"}, entrances), 2, "--data");
  expect_refused(call({"labels", "--data", "d", "--base", "http://shop.example"}, entrances), 2, "file");
  expect_refused(labels({"--pich-x-mm", "66"}), 2, "--pich-x-mm");
}

TEST_F(LabelsCommand, AFolderWithoutAShopOrAFileThatCannotBeWrittenIsNamed) {
  const std::string base = "http://shop.example";
  expect_refused(call({"labels", "--data", "x", "--base", base, file()}, entrances), 1, "x: there is no shop here");
  const std::string nowhere = (folder.path() / "none" / "out.pdf").string();
  expect_refused(call({"labels", "--data", "d", "--base", base, nowhere}, entrances), 1, nowhere);
}

}  // namespace
}  // namespace hw::terminal
