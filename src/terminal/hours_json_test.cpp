// The day of tests/recordings/day, through the command as people call it, against the figures of its README.md.

#include <algorithm>
#include <string>
#include <vector>

#include <boost/json.hpp>
#include <gtest/gtest.h>

#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

std::vector<std::string> documents() {
  std::vector<std::string> files;
  for (int n = 1; n <= 5; ++n)
    files.push_back(recorded_day + "lathe-l_2016-05-23_streams_" + std::to_string(n) + ".xml.xz");
  return files;
}

const std::vector<std::string> log = {recorded_day + "lathe-l_2016-05-23.shdr.xz"};

boost::json::object hours_of(const std::vector<std::string>& files, const std::vector<std::string>& more = {}) {
  std::vector<std::string> words = {"hours",
                                    "--devices",
                                    recorded_day + "devices.xml",
                                    "--device",
                                    "lathe-l",
                                    "--from",
                                    "2016-05-23T05:00:00Z",
                                    "--to",
                                    "2016-05-24T05:00:00Z",
                                    "--json"};
  words.insert(words.end(), more.begin(), more.end());
  words.insert(words.end(), files.begin(), files.end());
  const Called called = call(words);
  EXPECT_EQ(called.exit_status, 0) << called.errors;
  EXPECT_EQ(called.errors, "");
  return boost::json::parse(called.output).as_object();
}

// "counters.spindle.seconds" of the one machine, with the digits as printed.
std::string figure(const boost::json::object& hours, const std::string& path) {
  boost::json::value value = hours.at("machines").at(0);
  std::size_t begin = 0;
  while (begin <= path.size()) {
    const std::size_t end = std::min(path.find('.', begin), path.size());
    value = boost::json::value(value.at(path.substr(begin, end - begin)));
    begin = end + 1;
  }
  return value.is_double() ? fmt::format("{:.6f}", value.as_double()) : boost::json::serialize(value);
}

void expect_figures(const boost::json::object& hours) {
  EXPECT_EQ(figure(hours, "seconds"), "86400");
  EXPECT_EQ(figure(hours, "counters.connected.seconds"), "31627.020703");
  EXPECT_EQ(figure(hours, "counters.powered.seconds"), "31627.020703");
  EXPECT_EQ(figure(hours, "counters.powered.unknown_seconds"), "54772.979297");
  EXPECT_EQ(figure(hours, "counters.operating.seconds"), "2505.137256");
  EXPECT_EQ(figure(hours, "counters.operating.unknown_seconds"), "54820.551039");
  EXPECT_EQ(figure(hours, "counters.operating.starts"), "73");
  EXPECT_EQ(figure(hours, "counters.spindle.seconds"), "2737.507248");
  EXPECT_EQ(figure(hours, "items.Srpm.seconds"), "169.982098");
  EXPECT_EQ(figure(hours, "items.S2rpm.seconds"), "2567.525150");
  EXPECT_EQ(figure(hours, "counters.feeding.seconds"), "2853.862369");
  EXPECT_EQ(figure(hours, "counters.axis.seconds"), "2887.340114");
  EXPECT_EQ(figure(hours, "counters.cutting.seconds"), "2361.743677");
  EXPECT_EQ(figure(hours, "own_counters.auto_time.rises"), "3219");
}

TEST(Hours, OfTheRecordedDayMatchIndependentCount_FromTheLog) { expect_figures(hours_of(log)); }

TEST(Hours, OfTheRecordedDayMatchIndependentCount_FromDocumentsInAnyOrder) {
  std::vector<std::string> files = documents();
  expect_figures(hours_of(files));
  std::reverse(files.begin(), files.end());
  expect_figures(hours_of(files));
  std::rotate(files.begin(), files.begin() + 2, files.end());
  expect_figures(hours_of(files));
}

TEST(Hours, OfBothFormsTogetherCountNothingTwice) {
  std::vector<std::string> files = documents();
  files.insert(files.begin() + 2, log.front());
  files.push_back(log.front());
  expect_figures(hours_of(files));
}

TEST(Hours, OfTheRecordedDayMatchIndependentCount_AboveALoad) {
  for (const auto& files : {log, documents()}) {
    EXPECT_EQ(figure(hours_of(files, {"--load-above", "0"}), "counters.cutting.seconds"), "1439.763134");
    // By a second count of our own.
    EXPECT_EQ(figure(hours_of(files, {"--load-above", "5"}), "counters.cutting.seconds"), "520.589230");
  }
}

TEST(Hours, ADocumentThatIsMissingIsListedAsAGap) {
  std::vector<std::string> files = documents();
  files.erase(files.begin() + 2);
  const boost::json::object hours = hours_of(files);
  const boost::json::array& gaps = hours.at("machines").at(0).at("gaps").as_array();
  ASSERT_EQ(gaps.size(), 1U);
  EXPECT_EQ(gaps[0].at("sequence_begin").as_int64(), 653112);
  EXPECT_EQ(gaps[0].at("sequence_end").as_int64(), 663137);
}

TEST(Hours, ByDayAreCutInTheZone) {
  const boost::json::object hours = hours_of(log, {"--by-day", "--zone", "Asia/Tokyo"});
  const boost::json::object& by_day =
      hours.at("machines").at(0).at("counters").at("connected").at("by_day").as_object();
  EXPECT_EQ(by_day.size(), 2U);
  EXPECT_EQ(by_day.at("2016-05-23"), boost::json::value(12021.068534));  // up to 15:00Z
  EXPECT_EQ(by_day.at("2016-05-24"), boost::json::value(19605.952169));
}

}  // namespace
}  // namespace hw::terminal
