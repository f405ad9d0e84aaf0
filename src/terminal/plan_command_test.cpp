#include "src/terminal/plan_command.h"

#include <filesystem>
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <unistd.h>

#include "libs/formats/json.h"
#include "src/plan/instance_file.h"
#include "src/plan/tiny_instance_test.h"
#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

using testing::HasSubstr;

std::string plan_path(const std::string& name) {
  return testing::TempDir() + "plan_command_test_" + std::to_string(::getpid()) + name;
}

std::string instance_file(const plan::Instance& instance) {
  const std::string path = plan_path(".json");
  std::ofstream(path, std::ios::binary) << formats::print_json(instance);
  return path;
}

std::string text_in(const std::string& path) {
  std::stringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

TEST(PlanCommand, WritesAPlanThatKeepsAllLimitsAndReportsIt) {
  const plan::Instance instance = plan::chance_instance(2);
  const std::string out = plan_path("_plan.json");
  const Called called = call({"plan", instance_file(instance), "--out", out, "--time", "1", "--json"});
  ASSERT_EQ(called.exit_status, 0) << called.errors;
  for (const char* field :
       {"\"cost\":", "\"bound\":", "\"gap\":", "\"seconds\":", "\"stops\":", "\"rules\":{\"due_day\":"}) {
    EXPECT_THAT(called.output, HasSubstr(field));
  }
  const auto plan = plan::parse_plan(text_in(out));
  ASSERT_TRUE(plan.has_value()) << plan.error().message;
  EXPECT_TRUE(plan::evaluate_plan(instance, *plan).problems.empty());
  std::filesystem::remove(out);
}

TEST(PlanCommand, TellsPeopleWhatThePlanSaves) {
  const std::string out = plan_path("_plan.json");
  const Called called = call({"plan", instance_file(plan::chance_instance(2)), "--out", out, "--time", "0.5"});
  EXPECT_THAT(called.output, HasSubstr("each task on its due day"));
  EXPECT_THAT(called.output, HasSubstr("no plan costs less than"));
  std::filesystem::remove(out);
}

TEST(PlanCommand, SaysWhichTaskFindsNoPlaceAndWritesNothing) {
  plan::Instance instance = plan::instance_with({plan::machine_with("m1", {plan::weekly_task("oil")})});
  instance.machines[0].tasks[0].first_latest_day.emplace(2);
  instance.machines[0].blackouts = {{0, 6}};
  const std::string out = plan_path("_none.json");
  const Called called = call({"plan", instance_file(instance), "--out", out, "--time", "0.2"});
  expect_refused(called, 1, "m1 oil cannot be placed");
  EXPECT_FALSE(std::filesystem::exists(out));
}

TEST(PlanCommand, RefusesAnInstanceWithTheFileAndTheField) {
  plan::Instance instance = plan::chance_instance(2);
  instance.machines[1].tasks[0].crew = "nobody";
  const std::string path = instance_file(instance);
  expect_refused(call({"plan", path, "--out", plan_path("_none.json")}), 1,
                 path + ": machines[1].tasks[0].crew: there is no crew");
  expect_refused(call({"plan", "/nowhere.json", "--out", plan_path("_none.json")}), 1, "/nowhere.json");
  expect_refused(call({"plan", path, "--out", "/nowhere/plan.json"}), 1, "--out /nowhere/plan.json");
  expect_refused(call({"plan", path}), 2, "--out");
}

}  // namespace
}  // namespace hw::terminal
