#include "src/counters/state_archive.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace hw::counters {
namespace {

TEST(StateArchive, ReadsBackWhatItWrote) {
  StateWriter writer;
  std::vector<std::int64_t> numbers = {
      0, -1, 127, 128, std::numeric_limits<std::int64_t>::min(), std::numeric_limits<std::int64_t>::max()};
  std::vector<double> reals = {0.0, -0.0, 1, 0.1, -1e300, std::numeric_limits<double>::infinity()};
  std::optional<Instant> time = Instant{-5};
  archive_list(writer, numbers, [](StateWriter& a, std::int64_t& number) { a.number(number); });
  archive_list(writer, reals, [](StateWriter& a, double& real) { a.real(real); });
  archive_optional(writer, time, [](StateWriter& a, Instant& at) { a.time(at); });

  StateReader reader(writer.bytes());
  std::vector<std::int64_t> numbers_back;
  std::vector<double> reals_back;
  std::optional<Instant> time_back;
  archive_list(reader, numbers_back, [](StateReader& a, std::int64_t& number) { a.number(number); });
  archive_list(reader, reals_back, [](StateReader& a, double& real) { a.real(real); });
  archive_optional(reader, time_back, [](StateReader& a, Instant& at) { a.time(at); });
  EXPECT_TRUE(reader.is_whole());
  EXPECT_EQ(numbers_back, numbers);
  EXPECT_EQ(reals_back, reals);
  EXPECT_TRUE(std::signbit(reals_back[1]));
  EXPECT_EQ(time_back, time);
}

TEST(StateArchive, BytesThatEndEarlyAreNotWhole) {
  StateWriter writer;
  double real = 0.1;
  writer.real(real);
  for (std::size_t n = 0; n < writer.bytes().size(); ++n) {
    StateReader reader(std::string_view(writer.bytes()).substr(0, n));
    reader.real(real);
    EXPECT_FALSE(reader.is_good()) << n;
  }
}

TEST(StateArchive, ACountBeyondTheBytesIsRefusedBeforeAnythingIsReserved) {
  StateWriter writer;
  std::int64_t count = std::int64_t{1} << 60;
  writer.number(count);
  StateReader reader(writer.bytes());
  EXPECT_EQ(reader.count(), 0U);
  EXPECT_FALSE(reader.is_good());
}

}  // namespace
}  // namespace hw::counters
