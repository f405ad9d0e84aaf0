#include "src/terminal/evaluate_command.h"

#include <fstream>

#include <gmock/gmock.h>
#include <unistd.h>

#include "src/terminal/called_test.h"
#include "src/terminal/evaluate_cases.h"

namespace hw::terminal {
namespace {

using testing::HasSubstr;

Called evaluate(const std::string& what, const std::string& text, bool is_json = false) {
  const std::string path = testing::TempDir() + "evaluate_command_test_" + std::to_string(::getpid()) + ".json";
  std::ofstream(path, std::ios::binary) << text;
  std::vector<std::string> words = {"evaluate", what, path};
  if (is_json) words.emplace_back("--json");
  return call(words);
}

const std::string slide =
    R"({"target":[0,50],"up":[[0.001,0.002],[50.003,50.004]],"down":[[0.003,0.004],[50.006,50.005]]})";
const std::string ring = R"({"radius":100,"dev_cw":[0.001,0,0.001,0,-0.001,0,0.001,0]})";

TEST(EvaluateCommand, EachEvaluationTellsPeopleItsEditionAndWhatToCheck) {
  const std::pair<const char*, std::string> cases[] = {
      {"positioning", slide},
      {"circular", ring},
      {"cleanliness", "[1240,310,38]"},
      {"vibration", R"({"v":1.3,"case":"group2_rigid"})"},
      {"viscosity", R"({"t1":40,"v1":46,"t2":100,"v2":6.8})"},
      {"viscosity", R"({"U":73.3,"Y":8.86})"},
      {"viscosity", R"({"v":45})"},
      {"bearing", R"({"C":35.1,"P":4.2,"n":3000,"p":"ball","reliability":95})"},
      {"air", R"({"particles":[15000,300,9],"dew":-45,"oil":0.05})"}};
  for (const auto& [what, text] : cases) {
    const Called said = evaluate(what, text);
    EXPECT_EQ(said.exit_status, 0) << said.errors;
    EXPECT_THAT(said.output, HasSubstr("from memory: ")) << what;
    EXPECT_THAT(said.output, HasSubstr("check in a bought copy: ")) << what;
    EXPECT_THAT(evaluate(what, text.starts_with("[") ? R"({"counts":)" + text + "}" : text, true).output,
                HasSubstr(R"("standard":{"edition":")"))
        << what;
  }
}

TEST(EvaluateCommand, ANotFeasibleTopUpIsAnAnswer) {
  const std::string rich = R"({"V_full":250,"V_now":240,"brix":9,"factor":1,"target":7})";
  const Called said = evaluate("coolant", rich);
  EXPECT_EQ(said.exit_status, 0) << said.errors;
  EXPECT_THAT(said.output,
              HasSubstr("not feasible: too strong even with water alone; drain to 194.4 and fill up with water"));
  EXPECT_THAT(evaluate("coolant", rich, true).output, HasSubstr(R"("feasible":false)"));
}

TEST(EvaluateCommand, AVibrationOnALimitSaysThatTheStandardDoesNotDecide) {
  const Called said = evaluate("vibration", R"({"v":2.8,"case":"group2_rigid"})");
  EXPECT_THAT(said.output, HasSubstr("zone B/C"));
  EXPECT_THAT(said.output, HasSubstr("does not say on which side"));
  EXPECT_THAT(said.output, HasSubstr("None of these limits is written for machine-tool spindles"));
}

TEST(EvaluateCommand, AReliabilityNamesBothListsOfA1) {
  const Called said = evaluate("bearing", R"({"C":35.1,"P":4.2,"n":3000,"p":"ball","reliability":95})");
  EXPECT_THAT(said.output, HasSubstr("a1 of 2007: 0.64; of 1990: 0.62"));
}

TEST(EvaluateCommand, AListIsAnsweredByAListAndOneThatIsWrongIsNamed) {
  const Called list = evaluate("cleanliness", "[[1240,310,38],[null,310,38]]", true);
  EXPECT_EQ(list.output, "[\"17/15/12\",\"-/15/12\"]\n");
  expect_refused(evaluate("bearing", R"([{"C":35,"P":4,"n":3000,"p":"ball"},{"C":35,"P":-4,"n":3000,"p":"ball"}])"), 1,
                 ".json: [1]: P: a number above 0");
  expect_refused(evaluate("viscosity", "[]"), 1, "the list has no cases");
}

TEST(EvaluateCommand, RefusesBadInputWithItsField) {
  expect_refused(evaluate("coolant", R"({"V_full":250,"V_now":240,"brix":9,"factor":1,"target":7,"colour":3})"), 1,
                 "colour");
  expect_refused(evaluate("coolant", R"({"V_full":250})"), 1, "V_now: is missing");
  expect_refused(evaluate("vibration", R"({"v":1.3,"case":"group3_rigid"})"), 1, "case: must be one of group1_rigid");
  expect_refused(evaluate("vibration", R"({"v":1.3,"case":"class_I","unit":"in/s"})"), 1, "there is no field unit");
  expect_refused(evaluate("positioning", R"({"target":[0,50],"up":[[0.1],[50]],"down":[[0.1],[50]]})"), 1, "up[0]");
  expect_refused(evaluate("positioning", R"({"target":[0,50],"up":[],"down":[]})"), 1, "up: 0 lists of positions");
  expect_refused(evaluate("circular", R"({"radius":100})"), 1, "at least one direction");
  expect_refused(evaluate("cleanliness", "[1240,-310,-400]"), 1, "particles per millilitre");
  expect_refused(evaluate("cleanliness", "{}"), 1, "either count or counts");
  expect_refused(evaluate("bearing", R"({"C":1,"P":1,"n":1,"p":"plain"})"), 1, "p: must be one of");
  expect_refused(evaluate("bearing", R"({"C":9,"P":1,"n":1,"p":"ball","a1":1,"reliability":95})"), 1, "either a1 or");
  expect_refused(evaluate("air", "{}"), 1, "at least one of particles");
  expect_refused(evaluate("viscosity", R"({"t1":40,"v1":1e999,"t2":100,"v2":6})"), 1, "");
  expect_refused(evaluate("coolant", "no JSON"), 1, "line 1");
  expect_refused(call({"evaluate", "coolant"}), 2, "file");
  expect_refused(call({"evaluate", "coolant", "/nowhere/x.json"}), 1, "/nowhere/x.json");
}

}  // namespace
}  // namespace hw::terminal
