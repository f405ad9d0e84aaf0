#include "src/terminal/instance_command.h"

#include <filesystem>
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <unistd.h>

#include "src/plan/instance_file.h"
#include "src/plan/tiny_instance_test.h"
#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

using testing::HasSubstr;

TEST(InstanceCommand, WritesAnInstanceThatThePlanCommandReads) {
  const std::string out = testing::TempDir() + "instance_command_test_" + std::to_string(::getpid()) + ".json";
  Entrances entrances;
  InstanceCall heard;
  entrances.instance = [&](const InstanceCall& call) -> Result<proposal::StopInstance> {
    heard = call;
    return proposal::StopInstance{plan::chance_instance(2), proposal::PlantSlots({}, LocalDate::of(2026, 3, 5)), {}};
  };
  const Called called = call({"instance", "--data", "d", "--weeks", "3", "--out", out}, entrances);
  ASSERT_EQ(called.exit_status, 0) << called.errors;
  EXPECT_EQ(heard.data, "d");
  EXPECT_EQ(heard.weeks, 3);
  EXPECT_THAT(called.output, HasSubstr("2 machines with 3 tasks, 6 days from 2026-03-05 on; 0 tasks have no date"));
  std::stringstream text;
  text << std::ifstream(out).rdbuf();
  EXPECT_TRUE(plan::parse_instance(text.str()));
  std::filesystem::remove(out);
}

TEST(InstanceCommand, CalledWronglySaysWhatIsMissing) {
  expect_refused(call({"instance"}), 2, "--data");
  expect_refused(call({"instance", "--data", "d"}), 2, "--out");
  expect_refused(call({"instance", "--data", "d", "--out", "f", "--weeks", "99"}), 2, "--weeks");
}

}  // namespace
}  // namespace hw::terminal
