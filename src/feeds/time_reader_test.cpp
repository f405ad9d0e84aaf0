#include "src/feeds/time_reader.h"

#include <random>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

TEST(TimeReader, Property_GivesWhatReadInstantGives) {
  const unsigned seed = 7;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  const std::vector<std::string> minutes = {
      "2016-05-23T12:10:", "2016-05-23T12:11:", "2016-02-30T12:11:", "1969-12-31T23:59:", "2016-05-23 12:10:"};
  const std::vector<std::string> tails = {
      "07Z",   "59.999999Z", "60Z",       "61Z",    "5Z",     "07.Z",          "07.1",
      "07.12", "07+02:00",   "07.1-0530", "07.1Zx", "07,25Z", "07.123456789Z", "07.1234567891234Z",
      "",      "0",          "07.1z",     "07.1@5"};
  TimeReader reader;
  for (int i = 0; i < 5000; ++i) {
    const std::string text = minutes[random() % minutes.size()] + tails[random() % tails.size()];
    Instant wanted, got;
    const bool is_time = read_instant(text, wanted);
    ASSERT_EQ(reader.read(text, got), is_time) << text;
    if (is_time) {
      ASSERT_EQ(got, wanted) << text;
    }
  }
}

}  // namespace
}  // namespace hw::feeds
