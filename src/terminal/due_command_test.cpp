#include "src/terminal/due_command.h"

#include <filesystem>
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <unistd.h>

#include "src/terminal/backtest_plot.h"
#include "src/terminal/called_test.h"
#include "src/terminal/due_backtest.h"

namespace hw::terminal {
namespace {

using testing::HasSubstr;

std::string file_with(const std::string& name, const std::string& text) {
  const std::string path = testing::TempDir() + "due_command_test_" + std::to_string(::getpid()) + name;
  std::ofstream(path, std::ios::binary) << text;
  return path;
}

const std::string good = R"({"id":1,"start":"2026-03-02","history":[{"date":"2026-02-26","used":8},)"
                         R"({"date":"2026-02-27","used":8}],"left":40})"
                         "\n";

std::string half_a_year() {
  std::string text = "date,hours\n";
  for (int day = 0; day < 180; ++day) {
    const LocalDate on = LocalDate::of(2025, 9, 1) + day;
    text += print(on) + (iso_weekday(on) <= 5 ? ",8\n" : ",0\n");
  }
  return text;
}

TEST(DueCommand, AnswersEachLineInOrder) {
  const Called called = call({"due", "--json", file_with(".jsonl", good + "\n" + good)});
  EXPECT_EQ(called.exit_status, 0) << called.errors;
  EXPECT_EQ(std::count(called.output.begin(), called.output.end(), '\n'), 2);
}

TEST(DueCommand, ALineThatIsNoCaseDoesNotKeepTheOthersFromTheirAnswer) {
  const Called called = call({"due", "--json", file_with(".jsonl", good + "{\"id\":2}\n" + good)});
  EXPECT_EQ(called.exit_status, 1);
  EXPECT_THAT(called.output, HasSubstr(R"({"id":2,"refused":"line 2: start: is missing"})"));
  EXPECT_EQ(std::count(called.output.begin(), called.output.end(), '\n'), 3);
}

TEST(DueCommand, PrintsATableForPeople) {
  const Called called = call({"due", file_with(".jsonl", good)});
  EXPECT_THAT(called.output, HasSubstr("50 %"));
  EXPECT_THAT(called.output, HasSubstr("2 days of use"));
}

TEST(DueCommand, RefusesWhatIsNotThere) {
  expect_refused(call({"due", "--json", "/nowhere/cases.jsonl"}), 1, "/nowhere/cases.jsonl");
  expect_refused(call({"due"}), 2, "a file with cases is needed");
}

TEST(DueBacktest, TellsItsScoresAndDrawsThem) {
  const std::string plot = file_with(".svg", "");
  const Called called =
      call({"due", "backtest", "--horizons", "3,14", "--step", "5", "--plot", plot, file_with(".csv", half_a_year())});
  EXPECT_EQ(called.exit_status, 0) << called.errors;
  for (const char* word : {"hours, about 3 days ahead", "hours, all", "weekday bootstrap", "last week again"}) {
    EXPECT_THAT(called.output, HasSubstr(word));
  }
  std::stringstream drawing;
  drawing << std::ifstream(plot).rdbuf();
  EXPECT_THAT(drawing.str(), testing::StartsWith("<svg"));
  EXPECT_THAT(drawing.str(), HasSubstr("about 14 days ahead"));
}

TEST(DueBacktest, TellsTheSameAsJson) {
  const Called called = call({"due", "backtest", "--json", "--step", "9", file_with(".csv", half_a_year())});
  EXPECT_EQ(called.exit_status, 0) << called.errors;
  EXPECT_THAT(called.output, HasSubstr(R"({"chances":[0.05,0.1,)"));
  EXPECT_THAT(called.output, HasSubstr(R"("counter":"hours")"));
}

TEST(DueBacktest, RefusesWhatItCannotDo) {
  const std::string history = file_with(".csv", "date,hours\n2026-02-02,8\n2026-02-03,8\n");
  expect_refused(call({"due", "backtest", history}), 1, "too short a history");
  expect_refused(call({"due", "backtest", "--zone", "Nowhere/Town", history}), 2, "--zone");
  expect_refused(call({"due", "backtest", "--horizons", "0", history}), 2, "");
}

}  // namespace
}  // namespace hw::terminal
