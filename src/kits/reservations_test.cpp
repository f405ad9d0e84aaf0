#include "src/kits/reservations.h"

#include <numeric>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace hw::kits {
namespace {

LocalDate on_day(int n) { return *parse_local_date("2026-03-02") + n; }

PartStock holding(double quantity, std::optional<LocalDate> best_before = {}) {
  return {.batches = {{quantity, best_before}}, .incoming = {}, .substitutes = {}};
}

std::vector<std::vector<LineStanding>> given(const std::vector<StopWant>& stops, StockByPart stock) {
  return reserve(stops, stock);
}

TEST(Reservations, TheStopThatBeginsFirstIsServedFirst) {
  const std::vector<StopWant> stops{{on_day(1), {{"F", 2}}}, {on_day(2), {{"F", 2}}}};
  const auto all = given(stops, {{"F", holding(3)}});
  EXPECT_EQ(all[0][0].reserved, 2);
  EXPECT_EQ(all[0][0].chance, 1);
  EXPECT_EQ(all[1][0].reserved, 1);
  EXPECT_EQ(all[1][0].lacking, 1);
  EXPECT_EQ(all[1][0].chance, 0);
}

TEST(Reservations, ASubstituteIsTakenOnlyOfWhatItsOwnLinesLeave) {
  PartStock small = holding(0);
  small.substitutes = {"G"};
  const std::vector<StopWant> stops{{on_day(1), {{"F", 2}}}, {on_day(2), {{"G", 2}}}};
  const auto all = given(stops, {{"F", small}, {"G", holding(3)}});
  EXPECT_EQ(all[1][0].reserved, 2);
  EXPECT_EQ(all[0][0].reserved, 1);
  EXPECT_EQ(all[0][0].substitute, "G");
  EXPECT_EQ(all[0][0].lacking, 1);
}

TEST(Reservations, WhatIsOnOrderIsPromisedWithTheChanceThatItIsThereBefore) {
  PartStock stock = holding(1);
  stock.incoming = {{4, on_day(6), [](LocalDate day) { return day < on_day(4) ? 0.2 : 0.95; }}};
  const std::vector<StopWant> stops{{on_day(3), {{"F", 2}}}, {on_day(7), {{"F", 1}}}};
  const auto all = given(stops, {{"F", stock}});
  EXPECT_EQ(all[0][0].promised, 1);
  EXPECT_DOUBLE_EQ(all[0][0].chance, 0.2);
  EXPECT_EQ(all[1][0].promised, 1);
  EXPECT_DOUBLE_EQ(all[1][0].chance, 0.95);
  EXPECT_EQ(all[1][0].expected_on, on_day(6));
}

TEST(Reservations, WhatIsPastItsShelfLifeOnTheDayIsNotReserved) {
  const std::vector<StopWant> stops{{on_day(5), {{"F", 1}}}};
  EXPECT_EQ(given(stops, {{"F", holding(1, on_day(5))}})[0][0].reserved, 1);
  EXPECT_EQ(given(stops, {{"F", holding(1, on_day(4))}})[0][0].lacking, 1);
}

RC_GTEST_PROP(Reservations, NeverMoreIsReservedThanThereIsAndEachLineAddsUp, ()) {
  const auto amounts = *rc::gen::container<std::vector<int>>(rc::gen::inRange(1, 6));
  const int held = *rc::gen::inRange(0, 20);
  std::vector<StopWant> stops;
  for (std::size_t i = 0; i < amounts.size(); ++i) {
    stops.push_back({on_day(static_cast<int>(i)), {{"F", 1.0 * amounts[i]}}});
  }
  double reserved = 0;
  const auto all = given(stops, {{"F", holding(held)}});
  for (std::size_t i = 0; i < all.size(); ++i) {
    const LineStanding& line = all[i][0];
    RC_ASSERT(line.reserved + line.promised + line.lacking == 1.0 * amounts[i]);
    reserved += line.reserved;
  }
  RC_ASSERT(reserved == std::min(1.0 * held, 1.0 * std::accumulate(amounts.begin(), amounts.end(), 0)));
}

}  // namespace
}  // namespace hw::kits
