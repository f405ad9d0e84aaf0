#include "src/terminal/hours_command.h"

#include <filesystem>
#include <fstream>

#include <boost/json.hpp>
#include <unistd.h>

#include "libs/values/instant.h"
#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

const std::string devices = recorded_day + "devices.xml";

class Folder {
 public:
  Folder() : path_(testing::TempDir() + "hours_command_test_" + std::to_string(::getpid()) + "/") {
    std::filesystem::remove_all(path_);
    std::filesystem::create_directories(path_);
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  std::string file(const std::string& name, const std::string& text) const {
    std::ofstream(path_ + name, std::ios::binary) << text;
    return path_ + name;
  }

 private:
  std::string path_;
};

TEST(HoursCommand, CountsALogOfFourLines) {
  const Folder folder;
  const std::string log = folder.file("a.shdr",
                                      "2026-03-02T06:00:00Z|execution|READY\n"
                                      "2026-03-02T06:00:10.5Z|execution|EXECUTING\n"
                                      "nonsense\n"
                                      "2026-03-02T08:00:40+02:00|execution|STOPPED\n"
                                      "2026-03-02T06:01:00|Srpm|500\n");
  const Called called = call(
      {"hours", "--devices", devices, "--device", "lathe-l", "--json", "--alias", "EXECUTING=ACTIVE", "--by-day", log});
  ASSERT_EQ(called.exit_status, 0) << called.errors;
  const boost::json::value hours = boost::json::parse(called.output);
  const boost::json::value& machine = hours.at("machines").at(0);
  EXPECT_EQ(machine.at("machine"), "lathe-l");
  EXPECT_EQ(machine.at("from"), "2026-03-02T06:00:00Z");
  EXPECT_EQ(machine.at("to"), "2026-03-02T06:01:00Z");
  EXPECT_EQ(machine.at("counters").at("operating").at("seconds"), boost::json::value(29.5));
  EXPECT_EQ(machine.at("counters").at("operating").at("by_day").at("2026-03-02"), boost::json::value(29.5));
  EXPECT_TRUE(machine.at("counters").at("powered").is_null());
  EXPECT_EQ(hours.at("bad_lines"), boost::json::value(1));
}

// Three words of Execution at one time: the last one holds, though it counts like the first.
TEST(HoursCommand, TheLastOfThreeWordsAtOneTimeHolds) {
  const Folder folder;
  const std::string log = folder.file("a.shdr",
                                      "2026-03-02T06:00:00Z|execution|READY|execution|ACTIVE|execution|STOPPED\n"
                                      "2026-03-02T06:01:00Z|Srpm|500\n");
  const Called called = call({"hours", "--devices", devices, "--device", "lathe-l", "--json", log});
  ASSERT_EQ(called.exit_status, 0) << called.errors;
  const boost::json::value hours = boost::json::parse(called.output);
  EXPECT_EQ(hours.at("machines").at(0).at("counters").at("operating").at("seconds"), boost::json::value(0));
}

TEST(HoursCommand, TheWindowReachesToItemsThatNoCounterUses) {
  const Folder folder;
  const std::string log = folder.file("a.shdr",
                                      "2026-03-02T06:00:00Z|execution|ACTIVE\n"
                                      "2026-03-02T06:01:40Z|program|O1234\n");
  const Called called = call({"hours", "--devices", devices, "--device", "lathe-l", "--json", log});
  ASSERT_EQ(called.exit_status, 0) << called.errors;
  const boost::json::value hours = boost::json::parse(called.output);
  EXPECT_EQ(hours.at("machines").at(0).at("counters").at("operating").at("seconds"), boost::json::value(100));
}

TEST(HoursCommand, NothingIsCountedPastNow) {
  const Folder folder;
  const std::string past = folder.file("past.shdr", "2020-03-02T06:00:00Z|execution|ACTIVE\n");
  const std::string ahead = folder.file("ahead.shdr", "2150-03-02T06:00:00Z|execution|ACTIVE\n");
  const auto end_of = [&](const std::string& log, const std::string& to) {
    const Called called = call({"hours", "--devices", devices, "--device", "lathe-l", "--json", "--to", to, log});
    EXPECT_EQ(called.exit_status, 0) << called.errors;
    const boost::json::value hours = boost::json::parse(called.output);
    return *parse_instant(hours.at("machines").at(0).at("to").as_string());
  };
  const Instant before = now(), end = end_of(past, "2150-01-01T00:00:00Z");
  EXPECT_GE(end, before);
  EXPECT_LE(end, now());
  EXPECT_EQ(end_of(past, "2020-03-03T00:00:00Z"), *parse_instant("2020-03-03T00:00:00Z"));
  EXPECT_EQ(end_of(ahead, "2151-01-01T00:00:00Z"), *parse_instant("2151-01-01T00:00:00Z"));
}

TEST(HoursCommand, ReportsEveryMachineThatTheLogNames) {
  const Folder folder;
  const std::string log = folder.file("a.shdr",
                                      "2026-03-02T06:00:00Z|lathe-l:execution|ACTIVE\n"
                                      "2026-03-02T06:00:00Z|millturn-m:execution|READY\n"
                                      "2026-03-02T06:01:00Z|millturn-m:execution|ACTIVE\n"
                                      "2026-03-02T06:02:00Z|lathe-l:execution|READY|millturn-m:execution|READY\n");
  const Called called = call({"hours", "--devices", devices, "--json", log});
  ASSERT_EQ(called.exit_status, 0) << called.errors;
  const boost::json::value hours = boost::json::parse(called.output);
  ASSERT_EQ(hours.at("machines").as_array().size(), 2U);
  EXPECT_EQ(hours.at("machines").at(0).at("counters").at("operating").at("seconds"), boost::json::value(60));
  EXPECT_EQ(hours.at("machines").at(1).at("counters").at("operating").at("seconds"), boost::json::value(120));
}

TEST(HoursCommand, RefusesInOneSentence) {
  const Folder folder;
  const std::string log = recorded_day + "lathe-l_2016-05-23.shdr.xz";
  const auto hours = [&](std::vector<std::string> words) {
    words.insert(words.begin(), {"hours", "--devices", devices, "--json"});
    return call(words);
  };
  expect_refused(hours({"--device", "lathe-l", recorded_day + "none.xml"}), 1, "none.xml");
  expect_refused(hours({"--device", "lathe-9", log}), 1, "millturn-m, lathe-l");
  expect_refused(hours({log}), 1, "--device");
  expect_refused(hours({folder.file("cut.xml", "<MTConnectStreams>\n<Header instanceId=")}), 1, "cut.xml, line 2");
  expect_refused(hours({folder.file("cut.xml.gz", std::string("\x1f\x8b\x08\0\0\0\0\0\0\3\1\2\3", 13))}), 1,
                 "cut.xml.gz");
  expect_refused(hours({"--device", "millturn-m", recorded_day + "lathe-l_2016-05-23_streams_5.xml.xz"}), 1,
                 "no observation");
  expect_refused(hours({"--device", "lathe-l", "--from", "2030-01-01T00:00:00Z", log}), 1, "empty");
}

TEST(HoursCommand, WrongUsageExitsWithTwo) {
  const std::string log = recorded_day + "lathe-l_2016-05-23.shdr.xz";
  const auto hours = [&](std::vector<std::string> words) {
    words.insert(words.begin(), {"hours", "--devices", devices});
    return call(words);
  };
  expect_refused(call({"hours", log}), 2, "--devices");
  expect_refused(hours({}), 2, "file");
  expect_refused(hours({"--from", "yesterday", log}), 2, "--from");
  expect_refused(hours({"--from", "2016-05-23T05:00:00Z", "--to", "2016-05-23T05:00:00Z", log}), 2, "not before");
  expect_refused(hours({"--zone", "Atlantis/Poseidonis", log}), 2, "--zone");
  expect_refused(hours({"--alias", "EXECUTING", log}), 2, "WORD=WORD");
  expect_refused(hours({"--load-above", "much", log}), 2, "--load-above");
  expect_refused(hours({"--shiny", log}), 2, "--shiny");
}

}  // namespace
}  // namespace hw::terminal
