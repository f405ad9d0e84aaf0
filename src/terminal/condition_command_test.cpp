#include "src/terminal/condition_command.h"

#include <fstream>

#include <gmock/gmock.h>
#include <unistd.h>

#include "src/terminal/called_test.h"
#include "src/terminal/condition_answers.h"
#include "src/terminal/fit_view.h"
#include "src/terminal/series_file.h"

namespace hw::terminal {
namespace {

using testing::HasSubstr;

std::string table_with(const std::string& text) {
  const std::string path = testing::TempDir() + "condition_command_test_" + std::to_string(::getpid()) + ".csv";
  std::ofstream(path, std::ios::binary) << text;
  return path;
}

Called condition_of(std::vector<std::string> words, const std::string& table) {
  words.insert(words.begin(), "condition");
  words.push_back(table_with(table));
  return call(words);
}

const std::string dated =
    "date,x\n2026-01-05,1.0\n2026-02-02,1.12\n2026-03-02,1.19\n2026-03-30,1.31\n2026-04-27,1.38\n2026-05-25,1.52\n";

TEST(ConditionCommand, TellsPeopleWhatIsOut) {
  const Called chart = condition_of({"chart"}, "x\n10\n10.1\n9.9\n10\n10.1\n9.9\n10\n10.1\n9.9\n10\n13\n10\n");
  EXPECT_EQ(chart.exit_status, 0) << chart.errors;
  EXPECT_THAT(chart.output, HasSubstr("points beyond: 11\n"));
  EXPECT_THAT(condition_of({"chart", "--rules"}, "x\n1\n2\n1\n2\n").output, HasSubstr("eight on a side: none"));
  EXPECT_THAT(condition_of({"chart"}, "c\n3\n4\n5\n").output, HasSubstr("periods beyond: none"));
  EXPECT_THAT(condition_of({"chart"}, "x1,x2\n3,4\n5,4\n").output, HasSubstr("subgroups of 2"));
  EXPECT_THAT(condition_of({"ewma"}, "x\n1\n2\n1\n2\n").output, HasSubstr("lambda 0.2"));
  EXPECT_THAT(condition_of({"cusum", "--target", "1", "--k", "0.1", "--h", "1"}, "x\n1\n2\n2\n").output,
              HasSubstr("first beyond h at point 3, the shift began at about point 2"));
}

TEST(ConditionCommand, RulesStandInTheAnswerOnlyWhenAskedFor) {
  const std::string table = "x\n1\n2\n1\n2\n";
  EXPECT_THAT(condition_of({"chart", "--json"}, table).output, testing::Not(HasSubstr("rules")));
  EXPECT_THAT(condition_of({"chart", "--json", "--rules"}, table).output, HasSubstr(R"("rule":"four of 5 beyond 1")"));
}

TEST(ConditionCommand, TrendsTellTheLineAndTheTest) {
  const Called trend = condition_of({"trend", "--at", "5"}, "x,y\n1,2\n2,4\n3,6.5\n4,8\n");
  EXPECT_THAT(trend.output, HasSubstr("Mann-Kendall: S 6"));
  EXPECT_THAT(trend.output, HasSubstr("at 5: "));
  EXPECT_THAT(condition_of({"trend", "--origin"}, "x,y\n1,2\n2,4\n").output, HasSubstr("through the origin: y = 2 x"));
}

TEST(ConditionCommand, DatedReadingsCrossOnDates) {
  const Called json = condition_of({"crossing", "--limit", "2", "--json"}, dated);
  EXPECT_EQ(json.exit_status, 0) << json.errors;
  EXPECT_THAT(json.output, HasSubstr(R"("due":{"0.05":"2026-)"));
  EXPECT_THAT(condition_of({"crossing", "--limit", "2"}, dated).output, HasSubstr("due by 2026-"));
}

TEST(ConditionCommand, ALimitThatIsReachedAlreadyHasNoPassage) {
  const Called called = condition_of({"crossing", "--limit", "1.3", "--json"}, dated);
  EXPECT_EQ(called.exit_status, 0) << called.errors;
  EXPECT_THAT(called.output, HasSubstr(R"("passage":null)"));
  EXPECT_THAT(called.output, HasSubstr("the last reading is on the limit or beyond it"));
}

TEST(ConditionCommand, TimesAfterACommaAreTakenAndTheFileBehindThemIsNot) {
  const Called called = condition_of({"crossing", "--limit", "2", "--json", "--at", "100,200"}, dated);
  EXPECT_EQ(called.exit_status, 0) << called.errors;
  EXPECT_THAT(called.output, HasSubstr(R"("cdf":[{"t":100,"F":0.)"));
}

TEST(ConditionCommand, AFallingReadingLooksForALowerLimit) {
  const Called called = condition_of({"crossing", "--limit", "1", "--json"}, "t,x\n0,5\n10,4.5\n20,4.1\n30,3.4\n");
  EXPECT_THAT(called.output, HasSubstr("lower_one_sided_pi_crossing"));
  EXPECT_THAT(called.output, testing::Not(HasSubstr("upper_one_sided_pi_crossing")));
}

TEST(ConditionCommand, RatesSayWhatLessMeans) {
  const std::string fills = "hours,amount\n0,1\n100,1.9\n200,1.7\n300,1.6\n400,1.4\n500,1.3\n";
  EXPECT_THAT(condition_of({"rate", "--of", "way-oil"}, fills).output, HasSubstr("less way oil than before"));
  EXPECT_THAT(condition_of({"rate", "--json"}, fills).output, HasSubstr(R"("trend":"less")"));
}

TEST(ConditionCommand, RefusesBadCellsWithTheirPlace) {
  expect_refused(condition_of({"chart"}, "x\n1\n\n2\nnan\n"), 1, "line 5, column 1 (x)");
  expect_refused(condition_of({"trend"}, "x,y\n1,2\n2,\n3,4\n"), 1, "line 3, column 2 (y): a number is missing");
  expect_refused(condition_of({"chart"}, "x\n5.2 bar\n5.1\n"), 1, "line 2, column 1 (x)");
  expect_refused(condition_of({"chart"}, "c\n3\n-1\n"), 1, "c[1]: a count is a whole number from 0 on, not -1");
  expect_refused(condition_of({"chart"}, "subgroup,x\n1,2\n1,3\n2,4\n"), 1, "subgroup 2 has 1 values");
  expect_refused(condition_of({"chart"}, "x1,x2\n1,2\n3,\n"), 1, "line 3, column 2 (x2)");
  expect_refused(condition_of({"chart"}, "x\n1\n"), 1, "x: at least 2 values are needed, not 1");
  expect_refused(condition_of({"chart"}, "x\n"), 1, "no row below the header");
  expect_refused(condition_of({"chart"}, "x,note\n1,2\n"), 1, "there is no use for a column \"note\"");
  expect_refused(condition_of({"trend"}, "date,x\n2026-02-30,1\n"), 1, "line 2, column 1 (date)");
  expect_refused(condition_of({"crossing", "--limit", "2", "--conf", "2"}, dated), 1, "conf: a confidence");
}

TEST(ConditionCommand, RefusesOptionsThatDoNotGoTogether) {
  expect_refused(call({"condition", "ewma"}), 2, "either a file");
  expect_refused(call({"condition", "cusum"}), 2, "either a file");
  expect_refused(call({"condition", "crossing"}), 2, "either a file and --limit");
  expect_refused(condition_of({"crossing"}, dated), 2, "--limit is needed");
  expect_refused(condition_of({"rate", "--of", "beer"}, "hours,amount\n0,1\n"), 2, "--of");
  expect_refused(call({"condition", "crossing", "--d", "1", "--nu", "0.1", "--sigma", "0"}), 1, "sigma");
  expect_refused(call({"condition", "chart", "/nowhere/x.csv"}), 1, "/nowhere/x.csv");
}

}  // namespace
}  // namespace hw::terminal
