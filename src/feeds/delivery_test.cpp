#include "src/feeds/delivery.h"

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

struct Heard : ArrivalSink {
  void observation(const Arrival& arrival) override { arrivals.push_back(arrival); }
  void odd_word(std::uint32_t, std::uint32_t, std::string_view word) override { odd.emplace_back(word); }
  std::vector<Arrival> arrivals;
  std::vector<std::string> odd;
};

TEST(Delivery, ValuesAreScaledAndNeverInfinite) {
  Vocabulary words;
  Heard heard;
  Delivery delivery(words, heard);
  ItemPlace place{.item = 3, .role = counters::Role::path_feed};
  Arrival arrival;
  arrival.item = 3;
  delivery.deliver("600", place, 1.0 / 60, arrival);
  delivery.deliver("1e308", place, 25.4, arrival);
  ASSERT_EQ(heard.arrivals.size(), 2U);
  EXPECT_DOUBLE_EQ(heard.arrivals[0].value, 10);
  EXPECT_TRUE(counters::is_unknown(heard.arrivals[1].value));
}

TEST(Delivery, CoordinatesThatAreMissingAreUnknown) {
  Vocabulary words;
  Heard heard;
  Delivery delivery(words, heard);
  ItemPlace place{.item = 5, .role = counters::Role::position, .coordinates = 3};
  Arrival arrival;
  arrival.item = 5;
  delivery.deliver(" 1  2 ", place, 2.0, arrival);
  ASSERT_EQ(heard.arrivals.size(), 3U);
  EXPECT_EQ(heard.arrivals[1].value, 4);
  EXPECT_EQ(heard.arrivals[2].item, 7U);
  EXPECT_TRUE(counters::is_unknown(heard.arrivals[2].value));
  EXPECT_EQ(heard.odd.size(), 1U);
}

}  // namespace
}  // namespace hw::feeds
