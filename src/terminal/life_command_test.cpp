#include "src/terminal/life_command.h"

#include <filesystem>
#include <fstream>

#include <boost/json.hpp>

#include "src/terminal/called_test.h"
#include "src/terminal/life_answer.h"
#include "src/terminal/life_file.h"
#include "src/terminal/life_fit.h"
#include "src/terminal/life_interval.h"
#include "src/terminal/life_survival.h"
#include "src/terminal/life_trend.h"

namespace hw::terminal {
namespace {

class Life : public testing::Test {
 protected:
  Life() : folder_(std::filesystem::temp_directory_path() / fmt::format("hw-life-{}", ::getpid())) {
    std::filesystem::create_directories(folder_);
  }
  ~Life() override { std::filesystem::remove_all(folder_); }

  std::string file(const std::string& text) const {
    const std::string path = (folder_ / "table.csv").string();
    std::ofstream(path) << text;
    return path;
  }
  static boost::json::value parsed(const Called& called) {
    EXPECT_EQ(called.exit_status, 0) << called.errors << called.output;
    return boost::json::parse(called.output);
  }
  static double at(const boost::json::value& tree, std::string_view name) { return tree.at(name).to_number<double>(); }
  void expect_refused_at(const std::string& text, const std::string& place) const {
    const std::string path = file(text);
    expect_refused(call({"life", "fit", path}), 1, place);
    const Called json = call({"life", "fit", "--json", path});
    EXPECT_EQ(json.exit_status, 1);
    const boost::json::value tree = boost::json::parse(json.output);
    EXPECT_NE(std::string(tree.at("refused").as_string()).find(place), std::string::npos) << json.output;
  }

 private:
  std::filesystem::path folder_;
};

// NIST/SEMATECH e-Handbook 8.2.2.1 (tests/published/t1_weibull.json, T1-01).
const std::string nist_lives =
    "lower,upper,count\n54,54,1\n187,187,1\n216,216,1\n240,240,1\n244,244,1\n335,335,1\n361,361,1\n373,373,1\n"
    "375,375,1\n386,386,1\n500,,10\n";

TEST_F(Life, AFitHasTheContractsFields) {
  const auto fit = parsed(call({"life", "fit", "--json", file(nist_lives)}));
  EXPECT_NEAR(at(fit, "shape"), 1.72079726, 1e-7);
  EXPECT_NEAR(at(fit, "scale"), 606.527558, 1e-5);
  EXPECT_NEAR(at(fit, "loglik"), -75.1346182, 1e-6);
  EXPECT_NEAR(at(fit, "b10"), 164.022439, 1e-5);
  EXPECT_EQ(at(fit, "failures"), 10);
  EXPECT_EQ(at(fit, "suspensions"), 10);
  for (const char* name : {"shape_interval", "scale_interval", "b10_interval"}) {
    EXPECT_EQ(fit.at(name).as_array().size(), 2u);
  }
  EXPECT_NEAR(fit.at("b10_interval").at(0).to_number<double>(), 59.8545542, 1e-4);
  EXPECT_TRUE(fit.at("method").is_string());
}

TEST_F(Life, AFitSaysWhatElseIsAsked) {
  const std::string path = file(nist_lives);
  const auto fit = parsed(call({"life", "fit", "--json", "--b", "50", "--age", "300", "--conf", "0.9", path}));
  EXPECT_NEAR(at(fit.at("b_life"), "age"), 490.173781, 1e-5);
  EXPECT_NEAR(at(fit.at("reliability"), "reliability"), 0.742461426, 1e-8);
  EXPECT_NE(call({"life", "fit", path}).output.find("shape"), std::string::npos);
  const auto assumed = parsed(call({"life", "fit", "--json", "--shape", "2",
                                    file("lower,upper,count\n1200,,2\n1500,,1\n1850,,1\n2100,,1\n2400,,1\n")}));
  EXPECT_TRUE(assumed.at("scale").is_null());
  EXPECT_NEAR(at(assumed, "scale_lower"), 2499.94480689, 1e-6);
}

TEST_F(Life, WhatTheLivesCannotSayIsRefused) {
  expect_refused_at("lower,upper,count\n100,,1\n200,,4\n", "no failure");
  expect_refused_at("lower,upper,count\n700,700,3\n", "rises without end");
}

TEST_F(Life, BadRowsAreRefusedWithLineAndColumn) {
  expect_refused_at("lower,upper,count\n5,5,1\n-5,5,1\n", "line 3, column 1 (lower)");
  expect_refused_at("lower,upper,count\n5,4,1\n", "line 2, column 2 (upper)");
  expect_refused_at("lower,upper,count\nnan,5,1\n", "line 2, column 1 (lower)");
  expect_refused_at("lower,upper,count\n5,x,1\n", "line 2, column 2 (upper)");
  expect_refused_at("lower,upper,count\n5,5,0\n", "line 2, column 3 (count)");
  expect_refused_at("lower,upper,count\n5,5,1.5\n", "line 2, column 3 (count)");
  expect_refused_at("lower,upper,count\n5,5,\n", "line 2, column 3 (count)");
  expect_refused_at("lower,upper,count,entry\n5,5,1,7\n", "line 2, column 4 (entry)");
  expect_refused_at("lower,upper,count\n,,1\n", "line 2, column 1 (lower)");
  expect_refused_at("lower,uper,count\n5,5,1\n", "uper");
  expect_refused_at("lower,upper\n5,5\n", "count");
  expect_refused_at("lower,upper,count\n", "no life");
  expect_refused(call({"life", "fit", "/nowhere.csv"}), 1, "nowhere.csv");
}

TEST_F(Life, HundredThousandsOfRowsAreFitted) {
  std::string text = "lower,upper,count\n";
  for (int n = 1; n <= 200000; ++n) text += fmt::format("{},{},1\n", n, n % 3 == 0 ? "" : std::to_string(n));
  const auto fit = parsed(call({"life", "fit", "--json", file(text)}));
  EXPECT_EQ(at(fit, "failures") + at(fit, "suspensions"), 2e5);
}

TEST_F(Life, SurvivalIsKaplanMeierOrTurnbull) {
  const auto exact = parsed(call({"life", "survival", "--json", file(nist_lives)}));
  EXPECT_EQ(exact.at("method").as_string(), "Kaplan-Meier");
  EXPECT_NEAR(at(exact.at("steps").at(3), "survival"), 0.8, 1e-12);
  EXPECT_NEAR(at(exact.at("steps").at(3), "lower"), 0.55114556, 1e-7);
  const auto looks = parsed(call({"life", "survival", "--json", file("lower,upper,count\n,10,1\n10,,3\n")}));
  EXPECT_EQ(looks.at("method").as_string(), "Turnbull");
  EXPECT_NEAR(at(looks.at("steps").at(0), "survival"), 0.75, 1e-9);
  EXPECT_NE(call({"life", "survival", "--interval", "plain", file(nist_lives)}).output.find("still good"),
            std::string::npos);
}

TEST_F(Life, AnIntervalHasTheContractsFields) {
  const auto seal = parsed(call(
      {"life", "interval", "--json", "--shape", "2.3", "--scale", "4200", "--planned", "180", "--failed", "1450"}));
  EXPECT_NEAR(at(seal, "interval"), 1614.029416, 1e-5);
  EXPECT_NEAR(at(seal, "cost_rate"), 0.200605607406, 1e-11);
  EXPECT_NEAR(at(seal, "cost_rate_run_to_failure"), 0.389696766008, 1e-11);
  EXPECT_NEAR(at(seal, "saving"), 0.485226399, 1e-8);
  const auto worn = parsed(
      call({"life", "interval", "--json", "--shape", "1", "--scale", "4200", "--planned", "180", "--failed", "1450"}));
  EXPECT_TRUE(worn.at("interval").is_null());
}

TEST_F(Life, AnIntervalIsWeighedOverWhatLivesAllow) {
  const std::string path = file(nist_lives);
  const auto advice =
      parsed(call({"life", "interval", "--json", "--planned", "10", "--failed", "200", "--now", "400", path}));
  const auto& averaged = advice.at("averaged");
  EXPECT_GT(at(averaged, "interval"), 0);
  EXPECT_GE(at(averaged.at("move"), "chance_saves"), 0);
  EXPECT_LE(at(averaged.at("move"), "chance_saves"), 1);
  EXPECT_NE(
      call({"life", "interval", "--planned", "10", "--failed", "200", "--now", "400", path}).output.find("chance"),
      std::string::npos);
}

TEST_F(Life, OtherPoliciesAreAnswered) {
  const auto block = parsed(call({"life", "interval", "--json", "--policy", "block", "--shape", "2", "--scale", "1000",
                                  "--planned", "1", "--failed", "10"}));
  EXPECT_NEAR(at(block, "interval"), 334.27876829, 1e-3);
  const auto overhaul = parsed(call({"life", "interval", "--json", "--policy", "overhaul", "--shape", "2", "--scale",
                                     "1500", "--planned", "4000", "--failed", "600"}));
  EXPECT_NEAR(at(overhaul, "interval"), 3872.98335, 1e-4);
}

TEST_F(Life, IntervalsAreCalledInOneWayOnly) {
  const std::vector<std::string> costs = {"--planned", "1", "--failed", "5"};
  const auto called = [&](std::vector<std::string> words) {
    words.insert(words.begin(), {"life", "interval"});
    words.insert(words.end(), costs.begin(), costs.end());
    return call(words);
  };
  expect_refused(called({}), 2, "either a file");
  expect_refused(called({"--shape", "2"}), 2, "either a file");
  expect_refused(called({"--shape", "2", "--scale", "5", "--now", "3"}), 2, "--now");
  expect_refused(called({"--shape", "-2", "--scale", "5"}), 2, "--shape");
  expect_refused(called({"--shape", "nan", "--scale", "5"}), 2, "--shape");
  expect_refused(call({"life"}), 2, "subcommand");
}

TEST_F(Life, ATrendNamesBothConventions) {
  const std::string text = "time\n5\n40\n43\n175\n389\n712\n747\n795\n1299\n1478\n";  // NIST case study 1
  const auto trend = parsed(call({"life", "trend", "--json", "--until", "1500", file(text)}));
  EXPECT_NEAR(at(trend, "laplace_u"), -1.32694918, 1e-7);
  EXPECT_NEAR(at(trend, "mil_hdbk_chi2"), 37.2280815, 1e-6);
  EXPECT_NEAR(at(trend, "beta_mle"), 0.537228866, 1e-8);
  EXPECT_NEAR(at(trend, "beta_unbiased"), 0.483505979, 1e-8);
  EXPECT_NEAR(at(trend, "mtbf_end_unbiased"), 310.234012, 1e-5);
  EXPECT_EQ(trend.at("truncation").as_string(), "time");
  const auto failure = parsed(call({"life", "trend", "--json", file(text)}));
  EXPECT_EQ(failure.at("truncation").as_string(), "failure");
  EXPECT_EQ(at(failure, "mil_hdbk_df"), 18);
  EXPECT_NE(call({"life", "trend", file(text)}).output.find("MIL-HDBK-189"), std::string::npos);
}

TEST_F(Life, ATableOfOneColumnNeedsNoName) {
  const auto trend = parsed(call({"life", "trend", "--json", "--until", "1000", file("300\n900\n")}));
  EXPECT_EQ(at(trend, "failures"), 2);
  EXPECT_NEAR(at(trend, "beta_mle"), 1.5274949239, 1e-8);
}

TEST_F(Life, MachinesArePooled) {
  const auto trend = parsed(
      call({"life", "trend", "--json", file("machine,time,event\na,390,\na,780,failure\na,2000,end\nb,900,end\n")}));
  EXPECT_EQ(at(trend, "machines"), 2);
  EXPECT_EQ(at(trend, "total_time"), 2900);
  EXPECT_GT(at(trend, "beta_mle"), 0);
}

TEST_F(Life, WithoutFailuresThereIsALowerBound) {
  const auto trend = parsed(call({"life", "trend", "--json", "--until", "1000", "--conf", "0.95", file("time\n")}));
  EXPECT_TRUE(trend.at("mtbf").is_null());
  EXPECT_NEAR(at(trend, "mtbf_lower"), 333.808200695, 1e-6);
  expect_refused(call({"life", "trend", file("time\n")}), 1, "no failure");
  expect_refused(call({"life", "trend", "--until", "100", file("time\n300\n")}), 1, "after the end");
  expect_refused(call({"life", "trend", file("time,event\n300,broke\n")}), 1, "line 2, column 2 (event)");
  expect_refused(call({"life", "trend", file("time\n-3\n")}), 1, "line 2, column 1 (time)");
}

}  // namespace
}  // namespace hw::terminal
