#include "src/terminal/history_file.h"

#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

namespace hw::terminal {
namespace {

std::string file_with(const std::string& text) {
  const std::string path = testing::TempDir() + "history_file_test_" + std::to_string(::getpid()) + ".csv";
  std::ofstream(path, std::ios::binary) << text;
  return path;
}

TEST(HistoryFile, EachColumnIsACounterAndAnEmptyCellAnUnknownDay) {
  const auto histories =
      read_history_file(file_with("date,operating,cutting\n2026-03-02,8,5\n2026-03-03,,4\n"), Zone::utc());
  ASSERT_TRUE(histories) << histories.error().message;
  ASSERT_EQ(histories->size(), 2U);
  EXPECT_EQ((*histories)[0].counter, "operating");
  EXPECT_EQ((*histories)[0].history.days.size(), 1U);
  EXPECT_EQ((*histories)[0].history.start, LocalDate::of(2026, 3, 3));
  EXPECT_EQ((*histories)[1].history.days.size(), 2U);
}

TEST(HistoryFile, ReadingsAreSpreadOverTheDaysBetweenThem) {
  const auto histories = read_history_file(file_with("counter,read_at,value\n"
                                                     "hours,2026-03-01T12:00:00Z,100\n"
                                                     "hours,2026-03-04T12:00:00Z,172\n"
                                                     "hours,2026-03-05T12:00:00Z,10\n"
                                                     "hours,2026-03-07T12:00:00Z,58\n"),
                                           Zone::utc());
  ASSERT_TRUE(histories) << histories.error().message;
  const due::UseHistory& history = histories->front().history;
  // 2 and 3 March are covered; the 4th and 5th not, since the counter fell; the 6th is again.
  // What lies between two readings is known together: 2 and 3 March.
  ASSERT_EQ(history.days.size(), 2U);
  EXPECT_EQ(history.days[0].on, LocalDate::of(2026, 3, 3));
  EXPECT_EQ(history.days[0].days, 2);
  EXPECT_NEAR(history.days[0].used, 48, 1e-9);
  EXPECT_EQ(history.days[1].on, LocalDate::of(2026, 3, 6));
  EXPECT_EQ(history.days[1].days, 1);
}

TEST(HistoryFile, ReadingsOfEachDayAreDaysByThemselves) {
  const auto histories = read_history_file(file_with("counter,read_at,value\n"
                                                     "hours,2026-03-01T12:00:00Z,100\n"
                                                     "hours,2026-03-02T18:00:00Z,110\n"
                                                     "hours,2026-03-03T09:00:00Z,112\n"
                                                     "hours,2026-03-06T09:00:00Z,130\n"
                                                     "hours,2026-03-07T09:00:00Z,136\n"),
                                           Zone::utc());
  ASSERT_TRUE(histories) << histories.error().message;
  std::vector<int> lengths;
  for (const auto& day : histories->front().history.days) lengths.push_back(day.days);
  EXPECT_EQ(lengths, (std::vector<int>{1, 1, 3}));  // 2, 3, and 4 to 6 March
}

TEST(HistoryFile, DaysAreCutAtTheMidnightsOfTheZone) {
  const auto histories = read_history_file(file_with("counter,read_at,value\n"
                                                     "hours,2026-03-28T23:00:00Z,0\n"
                                                     "hours,2026-03-29T22:00:00Z,23\n"),
                                           *Zone::find("Europe/Berlin"));
  ASSERT_TRUE(histories);
  ASSERT_EQ(histories->front().history.days.size(), 1U);  // the day of 23 hours
  EXPECT_NEAR(histories->front().history.days[0].used, 23, 1e-9);
}

TEST(HistoryFile, RefusesWithFileLineAndColumn) {
  const auto message = [](const std::string& text) {
    return read_history_file(file_with(text), Zone::utc()).error().message;
  };
  EXPECT_THAT(message("date,use\n2026-02-30,1\n"), testing::HasSubstr("line 2, column 1"));
  EXPECT_THAT(message("date,use\n2026-02-20,-1\n"), testing::HasSubstr("never negative"));
  EXPECT_THAT(message("day,use\n2026-02-20,1\n"), testing::HasSubstr("a column date is needed"));
}

}  // namespace
}  // namespace hw::terminal
