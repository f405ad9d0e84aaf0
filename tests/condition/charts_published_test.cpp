// tests/published/t4_charts.json: control charts, by the functions where there is no command and by the commands else.

#include <gtest/gtest.h>

#include "src/condition/chart_constants.h"
#include "src/condition/run_length.h"
#include "tests/condition/alike.h"
#include "tests/condition/command_run.h"

namespace hw::tests {
namespace {

const PublishedCases& charts() {
  static const PublishedCases cases("t4_charts.json");
  return cases;
}

constexpr Tolerance millionth{ToleranceKind::absolute, 1e-6};
constexpr Tolerance billionth{ToleranceKind::absolute, 1e-9};

std::string option(const value& number_value) { return boost::json::serialize(number_value); }

TEST(ChartsPublished, ConstantsMatchPublished_T4_01) {
  for (const value& row : charts().expected("T4-01").as_array()) {
    const auto constants = condition::chart_constants(row.at("n").to_number<std::size_t>());
    ASSERT_TRUE(constants);
    const value actual = {{"d2", constants->d2}, {"d3", constants->d3}, {"c4", constants->c4}, {"A2", constants->A2},
                          {"A3", constants->A3}, {"D3", constants->D3}, {"D4", constants->D4}, {"B3", constants->B3},
                          {"B4", constants->B4}, {"E2", constants->E2}, {"n", constants->n}};
    expect_alike(actual, row, millionth, "T4-01");
  }
}

// The printed tables have three decimals; D4 differs between them in the last one.
TEST(ChartsPublished, ConstantsMatchThePrintedTables_T4_01) {
  const value& published = charts().one("T4-01").at("published");
  const auto expect_printed = [&](const char* name, double condition::ChartConstants::*member) {
    for (const auto& [size, printed] : published.at(name).as_object()) {
      const auto constants = condition::chart_constants(std::stoul(std::string(size)));
      ASSERT_TRUE(constants);
      EXPECT_NEAR((*constants).*member, number(printed), 6e-4) << name << " " << size;
    }
  };
  expect_printed("A2", &condition::ChartConstants::A2);
  expect_printed("D4", &condition::ChartConstants::D4);
  expect_printed("D3", &condition::ChartConstants::D3);
  expect_printed("d2", &condition::ChartConstants::d2);
  expect_printed("c4", &condition::ChartConstants::c4);
}

TEST(ChartsPublished, IndividualsMatchPublished_T4_02) {
  const value answer = answer_of({"condition", "chart"}, table_of({{"x", charts().input("T4-02").at("x")}}));
  expect_alike(answer, charts().expected("T4-02"), millionth, "T4-02");
  const value& printed = charts().one("T4-02").at("published");
  for (const char* name : {"mean", "mr_bar", "ucl", "lcl"}) {
    EXPECT_NEAR(number(answer.at("d2_1_128").at(name)), number(printed.at(name)), 5e-5) << name;
  }
}

TEST(ChartsPublished, MovingAveragesMatchPublished_T4_03) {
  const value& input = charts().input("T4-03");
  const value answer =
      answer_of({"condition", "ewma", "--lambda", option(input.at("lam")), "--target", option(input.at("target")),
                 "--sigma", option(input.at("sigma")), "--L", option(input.at("L"))},
                table_of({{"x", input.at("x")}}));
  expect_alike(answer, charts().expected("T4-03"), millionth, "T4-03");
}

TEST(ChartsPublished, CumulativeSumsMatchPublished_T4_04) {
  const value& input = charts().input("T4-04");
  const value answer = answer_of({"condition", "cusum", "--target", option(input.at("target")), "--k",
                                  option(input.at("k")), "--h", option(input.at("h"))},
                                 table_of({{"x", input.at("x")}}));
  expect_alike(answer, charts().expected("T4-04"), billionth, "T4-04");
}

TEST(ChartsPublished, CountsMatchPublished_T4_05) {
  const value answer = answer_of({"condition", "chart"}, table_of({{"c", charts().input("T4-05").at("c")}}));
  expect_alike(answer, charts().expected("T4-05"), billionth, "T4-05");
}

TEST(ChartsPublished, RunLengthsMatchPublished_T4_06) {
  const value& expected = charts().expected("T4-06");
  for (const value& one : expected.at("cusum").as_array()) {
    const auto length = condition::cusum_run_length(number(one.at("k")), number(one.at("h")), number(one.at("shift")));
    ASSERT_TRUE(length);
    EXPECT_NEAR(length->one, number(one.at("one")), 1e-4 * number(one.at("one")));
    EXPECT_NEAR(length->two, number(one.at("two")), 1e-4 * number(one.at("two")));
  }
  for (const value& one : expected.at("ewma").as_array()) {
    const auto length =
        condition::ewma_run_length(number(one.at("lambda")), number(one.at("L")), number(one.at("shift")));
    ASSERT_TRUE(length);
    EXPECT_NEAR(*length, number(one.at("arl")), 1e-4 * number(one.at("arl")));
  }
}

TEST(ChartsPublished, TheCommandsTellTheSameRunLengths_T4_06) {
  const value cusum = answer_without_file({"condition", "cusum", "--k", "0.5", "--h", "4", "--shift", "0,0.5,1,2"});
  for (const value& one : charts().expected("T4-06").at("cusum").as_array()) {
    if (number(one.at("h")) != 4) continue;
    for (const value& told : cusum.at("cusum").as_array()) {
      if (number(told.at("shift")) == number(one.at("shift"))) {
        expect_alike(told, one, {ToleranceKind::relative, 1e-4}, "T4-06");
      }
    }
  }
  const value ewma = answer_without_file({"condition", "ewma", "--lambda", "0.1", "--L", "2.7", "--shift", "0"});
  expect_alike(ewma.at("ewma").at(0), charts().expected("T4-06").at("ewma").at(0), {ToleranceKind::relative, 1e-4},
               "T4-06");
}

TEST(ChartsPublished, SubgroupsMatchPublished_T4_07_T4_08) {
  for (const char* id : {"T4-07", "T4-08"}) {
    std::string long_table = "subgroup,x\n", wide_table;
    int group = 0;
    for (const value& values : charts().input(id).at("subgroups").as_array()) {
      if (wide_table.empty()) {
        for (std::size_t n = 1; n <= values.as_array().size(); ++n)
          wide_table += (n > 1 ? ",x" : "x") + std::to_string(n);
        wide_table += "\n";
      }
      ++group;
      std::string row;
      for (const value& x : values.as_array()) {
        long_table += std::to_string(group) + "," + option(x) + "\n";
        row += (row.empty() ? "" : ",") + option(x);
      }
      wide_table += row + "\n";
    }
    for (const std::string& table : {long_table, wide_table}) {
      expect_alike(answer_of({"condition", "chart"}, table), charts().expected(id), millionth, id);
    }
  }
}

TEST(ChartsPublished, RunLengthsAtOtherDesignsMatchPublished_T4_09) {
  for (const value& one : charts().expected("T4-09").as_array()) {
    const auto length = condition::cusum_run_length(number(one.at("k")), number(one.at("h")), number(one.at("shift")));
    ASSERT_TRUE(length);
    EXPECT_NEAR(length->two, number(one.at("two")), 1e-3 * number(one.at("two")));
  }
}

}  // namespace
}  // namespace hw::tests
