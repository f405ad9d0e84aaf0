#include "src/terminal/rehearse_command.h"

#include <filesystem>
#include <fstream>

#include <boost/json.hpp>
#include <unistd.h>

#include "src/terminal/called_test.h"
#include "src/terminal/rehearsal_file.h"

namespace hw::terminal {
namespace {

const std::string seal_shop = R"({"machines":[{"key":"m1","kind":"lathe","counters":["operating"],
 "use":[{"mean":[10,10,10,10,10,0,0],"scatter":0.2}],"standing_per_hour":80,
 "tasks":[{"key":"seal","minutes":60,"planned_cost":80,"intervals":[{"counter":"operating","length":4000}],
           "part":{"counter":"operating","life":"seal","failed_cost":1700,"failed_standing_hours":6.75}}]}],
 "lives":[{"key":"seal","shape":2.3,"scale":4200}],"isolated":{"hours":0.75,"cost":60},"labour_per_hour":60,
 "days":3650,"years":200,"seed":5,"changes":[{"kind":"lathe","task":"seal","counter":"operating","interval":1600}]})";

class Rehearse : public testing::Test {
 protected:
  Rehearse() : path_(std::filesystem::temp_directory_path() / fmt::format("hw-rehearse-{}.json", ::getpid())) {}
  ~Rehearse() override { std::filesystem::remove(path_); }
  std::string file(std::string text, const std::string& from = "", const std::string& to = "") const {
    if (!from.empty()) text.replace(text.find(from), from.size(), to);
    std::ofstream(path_) << text;
    return path_.string();
  }

 private:
  std::filesystem::path path_;
};

TEST_F(Rehearse, TwoPlansAreSaidTheSameOnAnyNumberOfThreads) {
  const Called one = call({"rehearse", "--json", "--threads", "1", file(seal_shop)});
  ASSERT_EQ(one.exit_status, 0) << one.errors;
  EXPECT_EQ(one.output, call({"rehearse", "--json", "--threads", "3", file(seal_shop)}).output);
  const auto tree = boost::json::parse(one.output);
  EXPECT_EQ(tree.at("years").to_number<int>(), 200);
  EXPECT_LT(tree.at("difference").at("failures").at("mean").to_number<double>(), 0);
  EXPECT_GT(tree.at("cheaper").to_number<double>(), 0.5);
}

TEST_F(Rehearse, ATableSaysInHowManyYearsItCostsLess) {
  const Called called = call({"rehearse", file(seal_shop)});
  EXPECT_NE(called.output.find("changed less present"), std::string::npos) << called.errors;
  EXPECT_NE(called.output.find("costs less in"), std::string::npos);
}

TEST_F(Rehearse, WithoutAChangeThePresentIsPlayedAlone) {
  const auto tree = boost::json::parse(
      call({"rehearse", "--json",
            file(seal_shop, R"({"kind":"lathe","task":"seal","counter":"operating","interval":1600})")})
          .output);
  EXPECT_FALSE(tree.as_object().contains("changed"));
}

TEST_F(Rehearse, WhatIsWrongIsNamedWithItsPlace) {
  expect_refused(call({"rehearse", file(seal_shop, "4000", "0")}), 1, "machines[0].tasks[0].intervals[0].length");
  expect_refused(call({"rehearse", file(seal_shop, "\"minutes\"", "\"energy\":\"off\",\"minutes\"")}), 1,
                 "tasks[0].energy");
  expect_refused(call({"rehearse", file(seal_shop, "\"years\":200", "\"years\":1")}), 1, "years: 1 must be 2 to");
  expect_refused(call({"rehearse", file(seal_shop, "\"scale\":4200", "\"share\":1")}), 1, "share");
  expect_refused(call({"rehearse", file(seal_shop, ",\"scale\":4200")}), 1, "either shape and scale, or believed");
  expect_refused(call({"rehearse", file(seal_shop, "\"task\":\"seal\"", "\"task\":\"belt\"")}), 1,
                 "changes[0]: no machine");
}

}  // namespace
}  // namespace hw::terminal
