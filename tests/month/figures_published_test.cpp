// T7-12 and T7-15 of tests/published/t7_facts.json: availability, MTBF, MTTR.

#include <fstream>

#include <gtest/gtest.h>

#include "src/terminal/called_test.h"
#include "src/terminal/figures_command.h"
#include "tests/condition/alike.h"
#include "tests/condition/command_run.h"

namespace hw::tests {
namespace {

TEST(FiguresPublished, MatchPublished_ISO22400_T7_12_T7_15) {
  const PublishedCases facts("t7_facts.json");
  for (const char* id : {"T7-12", "T7-15"}) {
    const value answer = answer_of({"figures"}, boost::json::serialize(facts.input(id)));
    expect_alike(answer, facts.expected(id), {ToleranceKind::relative, 1e-10}, id);
    ASSERT_EQ(answer.at("figures").as_array().size(), 7u);
    for (const value& figure : answer.at("figures").as_array()) {
      EXPECT_FALSE(figure.at("definition").as_string().empty());
      EXPECT_FALSE(figure.at("standard").at("memory").as_string().empty()) << "what is from memory is told";
    }
  }
}

TEST(FiguresCommand, AMonthWithoutFailuresHasNoMeanButABound) {
  const value answer = answer_of({"figures"}, R"({"PBT": 160, "APT": 150, "TBF": [150], "TTR": []})");
  EXPECT_TRUE(answer.at("mtbf_per_failure").is_null());
  EXPECT_TRUE(answer.at("mtbf_iso22400_FE_plus_1").is_null());
  EXPECT_TRUE(answer.at("corrective_ratio").is_null()) << "neither CMT nor PMT was given";
  EXPECT_NEAR(number(answer.at("mtbf_at_least")), 150 / 2.302585092994046, 1e-9);
  EXPECT_EQ(answer.at("figures").at(2).at("none"), "no failure");
}

TEST(FiguresCommand, RefusesWhatCannotBeBySayingWhatWouldBeRight) {
  const auto refusal = [](const std::string& text) {
    const std::string path = testing::TempDir() + "figures_case.json";
    std::ofstream(path) << text;
    const auto called = terminal::call({"figures", path});
    EXPECT_EQ(called.exit_status, 1) << text;
    return called.errors;
  };
  EXPECT_NE(refusal(R"({"TBF": [1, 2], "TTR": []})").find("one period more than repairs"), std::string::npos);
  EXPECT_NE(refusal(R"({"PBT": 10, "APT": 11})").find("APT: 11 is more than the PBT of 10"), std::string::npos);
  EXPECT_NE(refusal(R"({"CMT": -1, "PMT": 2})").find("CMT: -1 is no time"), std::string::npos);
  EXPECT_NE(refusal(R"({"mtbf": 3})").find("mtbf"), std::string::npos);
}

}  // namespace
}  // namespace hw::tests
