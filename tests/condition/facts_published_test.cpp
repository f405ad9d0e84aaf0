// tests/published/t7_facts.json: evaluations by standards, by the commands. T7-12 and T7-15 (availability, MTBF, MTTR)
// are in tests/month.

#include <gtest/gtest.h>

#include "src/condition/cleanliness_code.h"
#include "tests/condition/alike.h"
#include "tests/condition/command_run.h"

namespace hw::tests {
namespace {

const PublishedCases& facts() {
  static const PublishedCases cases("t7_facts.json");
  return cases;
}

constexpr Tolerance exact{ToleranceKind::absolute, 0};

value evaluated(const std::string& what, const value& input) {
  return answer_of({"evaluate", what}, boost::json::serialize(input));
}

// A list of the same objects with some of their fields only.
value with_fields(const value& list, std::initializer_list<const char*> names) {
  boost::json::array cut;
  for (const value& one : list.as_array()) {
    boost::json::object object;
    for (const char* name : names) object[name] = one.at(name);
    cut.emplace_back(object);
  }
  return cut;
}

TEST(FactsPublished, CleanlinessNumbersMatchPublished_ISO4406_T7_01) {
  const value& expected = facts().expected("T7-01");
  expect_alike(evaluated("cleanliness", with_fields(expected, {"count"})), expected, exact, "T7-01");
  const std::vector<double> limits = numbers(facts().input("T7-01").at("upper_limit_per_ml"));
  EXPECT_TRUE(std::equal(limits.begin(), limits.end(), condition::particles_per_ml_max.begin(),
                         condition::particles_per_ml_max.end()));
}

TEST(FactsPublished, CleanlinessCodesMatchPublished_ISO4406_T7_02) {
  expect_alike(evaluated("cleanliness", facts().input("T7-02")), facts().expected("T7-02"), exact, "T7-02");
}

TEST(FactsPublished, GradesMatchPublished_ISO3448_T7_03_T7_13) {
  expect_alike(evaluated("viscosity", facts().input("T7-03")), facts().expected("T7-03"),
               {ToleranceKind::relative, 1e-9}, "T7-03");
  expect_alike(evaluated("viscosity", facts().input("T7-13")), facts().expected("T7-13"), exact, "T7-13");
}

TEST(FactsPublished, ViscosityOverTemperatureMatchesPublished_D341_T7_04) {
  expect_alike(evaluated("viscosity", facts().input("T7-04")), facts().expected("T7-04"),
               {ToleranceKind::relative, 1e-8}, "T7-04");
}

TEST(FactsPublished, TheViscosityIndexMatchesPublished_D2270_T7_05) {
  const value answer = evaluated("viscosity", facts().input("T7-05"));
  const value& one = facts().one("T7-05");
  for (std::size_t n = 0; n < 2; ++n) {
    EXPECT_NEAR(number(answer.at(n).at("VI")), number(one.at("expected").at(n)), 1e-9);
  }
  EXPECT_EQ(answer.at(0).at("rounded"), one.at("published").at("A_rounded"));
  EXPECT_EQ(answer.at(1).at("rounded"), one.at("published").at("B_rounded"));
}

// The table in the program gives what the worked examples interpolate from it.
TEST(FactsPublished, TheTableGivesTheSameIndexWithoutLAndH_D2270_T7_05) {
  const value& one = facts().one("T7-05");
  const value answer = evaluated("viscosity", with_fields(one.at("input"), {"U", "Y"}));
  EXPECT_NEAR(number(answer.at(0).at("L")), 119.94, 0.005);
  EXPECT_NEAR(number(answer.at(0).at("H")), 69.48, 0.005);
  EXPECT_NEAR(number(answer.at(1).at("H")), 28.97, 0.0051);
  EXPECT_EQ(answer.at(0).at("rounded"), 92);
  EXPECT_EQ(answer.at(1).at("rounded"), 156);
  EXPECT_EQ(answer.at(1).at("proc"), "B");
}

TEST(FactsPublished, RatingLivesMatchPublished_ISO281_T7_06) {
  expect_alike(evaluated("bearing", facts().input("T7-06")), facts().expected("T7-06"), {ToleranceKind::relative, 1e-9},
               "T7-06");
}

TEST(FactsPublished, VibrationZonesMatchPublished_ISO20816_T7_07) {
  const value& expected = facts().expected("T7-07");
  const value answer = evaluated("vibration", with_fields(expected, {"v", "case"}));
  expect_alike(answer, expected, exact, "T7-07");
  for (const value& one : answer.as_array()) {
    for (const char* standard : {"iso10816_3", "iso10816_1"}) {
      const auto& cases = facts().input("T7-07").at(standard).as_object();
      const value* limits = cases.if_contains(one.at("case").as_string());
      if (limits != nullptr) {
        EXPECT_EQ(numbers(one.at("limits")), numbers(*limits));
      }
    }
  }
}

TEST(FactsPublished, PositioningMatchesPublished_ISO230_2_T7_08) {
  const value answer = evaluated("positioning", facts().input("T7-08"));
  expect_alike(answer, facts().expected("T7-08"), {ToleranceKind::absolute, 1e-9}, "T7-08");
  value report = facts().one("T7-08").at("published");
  report.as_object().erase("wrong_in_report");
  expect_alike(answer, report, {ToleranceKind::absolute, 2e-5}, "T7-08, the report");
}

TEST(FactsPublished, TheCircularPathMatchesPublished_ISO230_4_T7_09) {
  expect_alike(evaluated("circular", facts().input("T7-09")), facts().expected("T7-09"),
               {ToleranceKind::absolute, 2e-6}, "T7-09");
}

TEST(FactsPublished, AirClassesMatchPublished_ISO8573_T7_10_T7_14) {
  for (const char* id : {"T7-10", "T7-14"}) {
    const value& input = facts().input(id);
    const value& samples = input.is_array() ? input : input.at("tests");
    const value& expected = facts().expected(id);
    for (std::size_t n = 0; n < samples.as_array().size(); ++n) {
      const value answer = evaluated("air", value{{"particles", samples.at(n)}});
      EXPECT_EQ(answer.at("particles"), expected.at("particles").at(n)) << id;
    }
    const auto expect_classes = [&](const char* name, const char* measured) {
      for (const value& one : expected.at(name).as_array()) {
        EXPECT_EQ(evaluated("air", value{{name, one.at(measured)}}).at(name), one.at("c")) << id << name;
      }
    };
    expect_classes("dew", "t");
    expect_classes("oil", "x");
    if (expected.as_object().contains("liquid")) expect_classes("liquid", "g");
  }
}

TEST(FactsPublished, CoolantTopUpsMatchPublished_T7_11_T7_16) {
  for (const char* id : {"T7-11", "T7-16"}) {
    expect_alike(evaluated("coolant", facts().input(id)), facts().expected(id), {ToleranceKind::relative, 1e-10}, id);
  }
}

}  // namespace
}  // namespace hw::tests
