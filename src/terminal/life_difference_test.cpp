#include "src/terminal/life_difference.h"

#include <filesystem>
#include <fstream>

#include <boost/json.hpp>

#include "libs/sql/test_folder.h"
#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

class LifeDifference : public testing::Test {
 protected:
  std::string file(const std::string& text) const {
    const std::string path = (folder_.path() / "groups.csv").string();
    std::ofstream(path) << text;
    return path;
  }

 private:
  sql::TestFolder folder_;
};

// Acute myelogenous leukaemia as in src/life/difference_test.cpp.
const std::string leukaemia =
    "group,lower,upper,count\nkept,9,9,1\nkept,13,13,1\nkept,13,,1\nkept,18,18,1\nkept,23,23,1\nkept,28,,1\n"
    "kept,31,31,1\nkept,34,34,1\nkept,45,,1\nkept,48,48,1\nkept,161,,1\nnot,5,5,2\nnot,8,8,2\nnot,12,12,1\n"
    "not,16,,1\nnot,23,23,1\nnot,27,27,1\nnot,30,30,1\nnot,33,33,1\nnot,43,43,1\nnot,45,45,1\n";

TEST_F(LifeDifference, HasBothTestsAndEachGroup) {
  const Called called = call({"life", "difference", "--json", file(leukaemia)});
  ASSERT_EQ(called.exit_status, 0) << called.errors << called.output;
  const auto told = boost::json::parse(called.output);
  EXPECT_NEAR(told.at("log_rank").at("statistic").to_number<double>(), 3.3963886989776, 1e-10);
  EXPECT_EQ(told.at("log_rank").at("by"), "chi-squared");
  EXPECT_NEAR(told.at("weibull").at("statistic").to_number<double>(), 6.66100159619643, 1e-8);
  EXPECT_EQ(told.at("verdict"), "no difference seen");
  EXPECT_EQ(told.at("p_needed").to_number<double>(), 0.025);
  ASSERT_EQ(told.at("groups").as_array().size(), 2u);
  EXPECT_EQ(told.at("groups").at(0).at("group"), "kept");
  EXPECT_NEAR(told.at("groups").at(0).at("expected").to_number<double>(), 10.68933599230072, 1e-10);
  EXPECT_EQ(told.at("groups").at(1).at("fit").at("shape_interval").as_array().size(), 2u);
}

TEST_F(LifeDifference, SaysInWordsWhatItFound) {
  const Called called = call({"life", "difference", file(leukaemia)});
  EXPECT_EQ(called.exit_status, 0);
  for (const char* word : {"kept", "log-rank", "Weibull", "no difference seen"}) {
    EXPECT_NE(called.output.find(word), std::string::npos) << word;
  }
}

TEST_F(LifeDifference, SaysWhyATestIsNotThere) {
  const Called called = call({"life", "difference", "--json", file("group,lower,upper,count\na,0,5,2\nb,4,4,9\n")});
  const auto told = boost::json::parse(called.output);
  EXPECT_TRUE(told.at("log_rank").is_null());
  EXPECT_TRUE(told.at("weibull").is_null());
  EXPECT_EQ(told.at("cautions").as_array().size(), 2u);
  EXPECT_EQ(told.at("verdict"), "unknown");
}

TEST_F(LifeDifference, RefusesABadRowByLineAndField) {
  const auto refused = [&](const std::string& rows, const std::string& place) {
    expect_refused(call({"life", "difference", file("group,lower,upper,count\n" + rows)}), 1, place);
  };
  refused("a,5,4,1\n", "line 2");
  refused("a,5,5,1\n,6,6,1\n", "line 3");
  refused("a,5,5,0\n", "count");
  refused("a,5,5,1\na,6,6,1\n", "two groups");
  expect_refused(call({"life", "difference", file("lower,upper,count\n5,5,1\n")}), 1, "group");
  expect_refused(call({"life", "difference", file("group,lower,upper,count,entyr\na,5,5,1,2\n")}), 1, "entyr");
}

}  // namespace
}  // namespace hw::terminal
