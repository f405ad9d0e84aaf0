// The command kits: tests/published/t6_spares.json, what it refuses, and the simulated stores.

#include "src/terminal/kits_command.h"

#include <fstream>

#include <gtest/gtest.h>
#include <unistd.h>

#include "src/terminal/called_test.h"
#include "src/terminal/kits_simulate.h"
#include "src/terminal/kits_stock.h"
#include "tests/condition/alike.h"
#include "tests/condition/command_run.h"
#include "tests/places/places.h"

namespace hw::tests {
namespace {

const PublishedCases& spares() {
  static const PublishedCases cases("t6_spares.json");
  return cases;
}

// With no stock nothing is on hand; the published sum leaves a last digit of its rounding there.
value without_rounding(value expected) {
  if (!expected.is_array()) return expected;
  for (value& one : expected.as_array()) {
    if (!one.is_object() || !one.as_object().contains("mean_on_hand_at_s")) continue;
    value& on_hand = one.at("mean_on_hand_at_s");
    if (number(on_hand) < 1e-16) on_hand = 0.0;
  }
  return expected;
}

TEST(SparesPublished, TheWholeFileMatchesPublished_T6) {
  const std::string path = in_source("tests/published/t6_spares.json");
  const terminal::Called called = terminal::call({"kits", "stock", "--json", path});
  ASSERT_EQ(called.exit_status, 0) << called.errors;
  const value answer = boost::json::parse(called.output);
  ASSERT_EQ(answer.at("cases").as_array().size(), 10U);
  for (const value& one : answer.at("cases").as_array()) {
    const std::string id(one.at("id").as_string());
    expect_alike(one.at("output"), without_rounding(spares().expected(id)), {ToleranceKind::relative, 1e-12}, id);
  }
}

TEST(SparesPublished, PlainQuantitiesMatchPublished_T6_01_T6_03_T6_08_T6_10) {
  for (const char* id : {"T6-03", "T6-08", "T6-10"}) {
    expect_alike(answer_of({"kits", "stock"}, boost::json::serialize(spares().input(id))), spares().expected(id),
                 {ToleranceKind::relative, 1e-12}, id);
  }
  const value level = answer_of({"kits", "stock"}, R"({"mean": 0.5, "p": 0.95})");
  expect_alike(level, spares().expected("T6-01").at(7), {ToleranceKind::relative, 1e-12}, "T6-01");
  EXPECT_NE(std::string(level.at("s_fill_rate_measure").as_string()).find("fill rate"), std::string::npos);
}

void expect_stock_refused(const std::string& text, const std::string& with) {
  const std::string path = testing::TempDir() + "kits_stock_" + std::to_string(::getpid());
  std::ofstream(path) << text;
  terminal::expect_refused(terminal::call({"kits", "stock", "--json", path}), 1, with);
  ::unlink(path.c_str());
}

TEST(SparesPublished, WhatIsNoQuestionIsRefusedByField) {
  expect_stock_refused(R"({"mean": 3})", "p");
  expect_stock_refused(R"({"mean": 3, "p": 1})", "p: 1 is not a chance");
  expect_stock_refused(R"({"foo": 3})", "{mean, p}");
  expect_stock_refused(R"({"h": 1, "p": 2, "K": 3, "lam": 4})", "L");
  expect_stock_refused(R"([{"mean": 1, "p": 0.9}, {"mean": -1, "p": 0.9}])", "[1].mean");
  expect_stock_refused(R"({"beta": 2, "eta": 9, "ages": [1, -1], "x": 3, "p": 0.9})", "ages[1]");
  expect_stock_refused(R"({"cases": [{"id": "a", "input": {"mean": 1, "p": 2}}]})", "cases[0].input.p");
  terminal::expect_refused(terminal::call({"kits"}), 2, "subcommand");
}

TEST(StoresSimulated, TheTableComparesRulesAtTheServiceOfTheProposal) {
  terminal::KitsSimulateCall call;
  call.years = 2;
  call.kinds = 1;
  call.is_json = true;
  const value report = boost::json::parse(terminal::simulate_kits(call).value().text);
  const value& proposed = report.at("proposed");
  EXPECT_GE(number(proposed.at("service")), 0.95 - number(proposed.at("service_se")));
  ASSERT_EQ(report.at("at_equal_service").as_array().size(), 2U);
  for (const value& rule : report.at("at_equal_service").as_array()) {
    EXPECT_GE(number(rule.at("service")), number(proposed.at("service")));
    EXPECT_LT(number(proposed.at("stock_value")), 0.8 * number(rule.at("stock_value"))) << rule;
  }
  terminal::expect_refused(terminal::call({"kits", "simulate", "--years", "1"}), 2, "--years");
}

}  // namespace
}  // namespace hw::tests
