// tests/published/t5_trend.json: trends and crossings, by the commands.

#include <gtest/gtest.h>

#include "src/condition/first_passage.h"
#include "tests/condition/alike.h"
#include "tests/condition/command_run.h"

namespace hw::tests {
namespace {

const PublishedCases& trends() {
  static const PublishedCases cases("t5_trend.json");
  return cases;
}

std::string xy_table(const value& input) { return table_of({{"x", input.at("x")}, {"y", input.at("y")}}); }

TEST(TrendsPublished, TheLineMatchesCertified_NIST_Norris_T5_01) {
  const value& one = trends().one("T5-01");
  const value answer =
      answer_of({"condition", "trend", "--conf", "0.95", "--x0", "0,500,1200"}, xy_table(one.at("input")));
  expect_alike(answer, one.at("expected"), {ToleranceKind::relative, 1e-9}, "T5-01");
  expect_alike(answer, one.at("published"), {ToleranceKind::relative, 1e-9}, "T5-01 certified");
}

TEST(TrendsPublished, TheLineThroughTheOriginMatchesCertified_NIST_NoInt_T5_02_T5_09) {
  for (const char* id : {"T5-02", "T5-09"}) {
    const value answer = answer_of({"condition", "trend", "--origin"}, xy_table(trends().input(id)));
    expect_alike(answer, trends().expected(id), {ToleranceKind::relative, 1e-10}, id);
  }
}

TEST(TrendsPublished, TheCrossingMatchesPublished_T5_03) {
  const value answer =
      answer_of({"condition", "crossing", "--limit", "2.8", "--conf", "0.9"}, xy_table(trends().input("T5-03")));
  expect_alike(answer, trends().expected("T5-03"), {ToleranceKind::relative, 1e-7}, "T5-03");
}

TEST(TrendsPublished, SenAndMannKendallMatchPublished_EPA_T5_04_T5_05) {
  for (const char* id : {"T5-04", "T5-05"}) {
    const value answer = answer_of({"condition", "trend"}, xy_table(trends().input(id)));
    value expected = trends().expected(id);
    // An end that is 0 leaves no room for a relative tolerance.
    const value interval = expected.at("slope_ci95_gilbert_interpolated");
    expected.as_object().erase("slope_ci95_gilbert_interpolated");
    expect_alike(answer, expected, {ToleranceKind::relative, 1e-9}, id);
    expect_alike(answer.at("slope_ci95_gilbert_interpolated"), interval, {ToleranceKind::absolute, 1e-9}, id);
  }
}

TEST(TrendsPublished, FirstPassageMatchesPublished_T5_06_T5_08) {
  for (const char* id : {"T5-06", "T5-08"}) {
    const value& input = trends().input(id);
    const value& expected = trends().expected(id);
    std::string times;
    for (const value& point : expected.at("cdf").as_array()) {
      times += (times.empty() ? "" : ",") + boost::json::serialize(point.at("t"));
    }
    const auto text = [&](const char* name) { return boost::json::serialize(input.at(name)); };
    const value answer = answer_without_file(
        {"condition", "crossing", "--d", text("d"), "--nu", text("nu"), "--sigma", text("sigma"), "--at", times});
    expect_alike(answer.at("cdf"), expected.at("cdf"), {ToleranceKind::absolute, 1e-9}, id);
    expect_alike(answer.at("quantiles"), expected.at("quantiles"), {ToleranceKind::relative, 1e-8}, id);
    for (const char* name : {"mean", "shape_lambda", "sd"}) {
      EXPECT_NEAR(number(answer.at(name)), number(expected.at(name)), 1e-8 * number(expected.at(name))) << id << name;
    }
  }
}

TEST(TrendsPublished, DriftAndScatterMatchPublished_T5_07_T5_10) {
  for (const char* id : {"T5-07", "T5-10"}) {
    const value& input = trends().input(id);
    const std::string table = table_of({{"t", input.at("t")}, {"x", input.at("x")}});
    for (const value& answer :
         {answer_of({"condition", "trend"}, table), answer_of({"condition", "crossing", "--limit", "9"}, table)}) {
      expect_alike(answer, trends().expected(id), {ToleranceKind::relative, 1e-10}, id);
    }
  }
}

}  // namespace
}  // namespace hw::tests
