// life mcf, life inspection and life test, with their table.

#include "src/terminal/life_mcf.h"

#include <cmath>
#include <filesystem>
#include <fstream>

#include <boost/json.hpp>
#include <unistd.h>

#include "src/terminal/called_test.h"
#include "src/terminal/condition_shifts.h"
#include "src/terminal/life_inspection.h"
#include "src/terminal/table_file.h"
#include "src/terminal/watched_file.h"

namespace hw::terminal {
namespace {

class WatchedTable : public testing::Test {
 protected:
  WatchedTable() : path_(std::filesystem::temp_directory_path() / fmt::format("hw-watched-{}.csv", ::getpid())) {}
  ~WatchedTable() override { std::filesystem::remove(path_); }
  std::string file(const std::string& text) const {
    std::ofstream(path_) << text;
    return path_.string();
  }

 private:
  std::filesystem::path path_;
};

double number_of(const boost::json::value& tree, std::string_view name) { return tree.at(name).to_number<double>(); }

// At 20 two of two machines fail, at 60 the one that is still watched; the third is watched from 60 on.
TEST_F(WatchedTable, MeansAreOverTheMachinesThatAreWatchedThen) {
  const std::string path = file("machine,age,end,entry\na,20,100,\na,60,,\nb,20,50,0\nc,,100,60\nc,80,,\n");
  const auto tree = boost::json::parse(call({"life", "mcf", "--json", path}).output);
  EXPECT_EQ(number_of(tree, "machines"), 3);
  const auto& steps = tree.at("steps").as_array();
  ASSERT_EQ(steps.size(), 3U);
  EXPECT_EQ(number_of(steps[0], "mean"), 1);
  EXPECT_EQ(number_of(steps[1], "at_risk"), 1);
  EXPECT_EQ(number_of(steps[1], "mean"), 2);
  EXPECT_EQ(number_of(steps[2], "mean"), 2.5);
  EXPECT_NE(call({"life", "mcf", path}).output.find("mean cumulative failures of 3 machines"), std::string::npos);
}

TEST_F(WatchedTable, WhatIsNoSuchTableIsRefusedWithItsPlace) {
  expect_refused(call({"life", "mcf", file("machine,age,end\na,20,\n")}), 1, "machine \"a\" has no end");
  expect_refused(call({"life", "mcf", file("machine,age,end\na,20,50\na,30,60\n")}), 1, "it was 50 on a row before");
  expect_refused(call({"life", "mcf", file("machine,age,end,note\na,20,50,x\n")}), 1, "no use for a column \"note\"");
  expect_refused(call({"life", "mcf", file("machine,age,end\na,70,50\n")}), 1, "70");
}

// tests/published/t3_replacement.json, T3-07.
TEST(LifeInspection, MatchesPublished_T3_07) {
  const std::vector<std::string> words{
      "life", "inspection",        "--rate", "0.02",   "--delay", "60", "--breakdown-down",
      "3.5",  "--inspection-down", "0.4",    "--json", "--every", "60"};
  const auto tree = boost::json::parse(call(words).output);
  EXPECT_NEAR(number_of(tree, "interval"), 30.5, 0.05);
  EXPECT_NEAR(number_of(tree, "down"), 0.0279, 5e-5);
  EXPECT_NEAR(number_of(tree, "breakdowns"), 0.216, 5e-4);
  EXPECT_NEAR(number_of(tree, "down_without"), 0.07, 1e-12);
  EXPECT_NEAR(number_of(tree.at("every"), "breakdowns"), std::exp(-1), 1e-12);
}

TEST(LifeInspection, IsNotAdvisedWhereItTakesMoreThanItSaves) {
  const Called called = call(
      {"life", "inspection", "--rate", "0.0001", "--delay", "1", "--breakdown-down", "1", "--inspection-down", "8"});
  EXPECT_NE(called.output.find("no inspection"), std::string::npos) << called.errors;
}

// tests/published/t3_replacement.json, T3-08; and back.
TEST(LifeTest, ShareAndIntervalAreEachOthersAnswer) {
  const auto there = boost::json::parse(
      call({"life", "test", "--shape", "2", "--scale", "20000", "--every", "2000", "--json"}).output);
  EXPECT_NEAR(number_of(there, "unprotected"), 0.00333, 1e-5);
  const auto back = boost::json::parse(call({"life", "test", "--shape", "2", "--scale", "20000", "--share",
                                             fmt::format("{}", number_of(there, "unprotected")), "--json"})
                                           .output);
  EXPECT_NEAR(number_of(back, "interval"), 2000, 1e-3);
  expect_refused(call({"life", "test", "--shape", "2", "--scale", "20000"}), 2, "either --every or --share");
}

TEST(ConditionShifts, ATableOrShiftsButNotBoth) {
  EXPECT_TRUE(check_file_or_shifts({.file = "x.csv"}, "ewma"));
  EXPECT_FALSE(check_file_or_shifts({}, "ewma"));
  EXPECT_FALSE(check_file_or_shifts({.file = "x.csv", .shifts = {1}}, "ewma"));
}

}  // namespace
}  // namespace hw::terminal
