#include "src/service/use_change.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

const LocalDate day = LocalDate::of(2026, 3, 2);

UseChange change(std::optional<std::string> machine, LocalDate from, std::optional<LocalDate> until, double factor) {
  return {.id = "c",
          .machine = std::move(machine),
          .from = from,
          .until = until,
          .factor = factor,
          .why = "",
          .by = "",
          .at = {},
          .is_withdrawn = false};
}

TEST(UseChange, HoldsFromItsFirstDayToItsLast) {
  const std::vector changes{change({}, day, day + 2, 0.5)};
  EXPECT_EQ(factor_on(changes, day - 1), 1);
  EXPECT_EQ(factor_on(changes, day), 0.5);
  EXPECT_EQ(factor_on(changes, day + 2), 0.5);
  EXPECT_EQ(factor_on(changes, day + 3), 1);
}

TEST(UseChange, ChangesOfOneDayMultiply) {
  const std::vector changes{change({}, day, {}, 0.5), change("m1", day + 1, {}, 3)};
  EXPECT_EQ(factor_on(changes, day), 0.5);
  EXPECT_EQ(factor_on(changes, day + 1000), 1.5);
}

TEST(UseChange, ConcernsItsMachineOrAllUnlessWithdrawn) {
  std::vector all{change({}, day, {}, 2), change("m1", day, {}, 3), change("m2", day, {}, 5)};
  EXPECT_EQ(factor_on(changes_for(all, "m1"), day), 6);
  EXPECT_EQ(factor_on(changes_for(all, "m2"), day), 10);
  all[0].is_withdrawn = true;
  EXPECT_EQ(factor_on(changes_for(all, "m1"), day), 3);
}

TEST(UseChange, HistoryIsToldInTheTermsOfAnOrdinaryDay) {
  const std::vector changes{change({}, day + 1, day + 1, 2), change({}, day + 2, day + 2, 0)};
  const std::vector<due::UseDay> days{{day, 8}, {day + 1, 16}, {day + 2, 0.25}, {day + 3, 8}};
  const auto ordinary = ordinary_use(days, changes);
  ASSERT_EQ(ordinary.size(), 3U) << "a day that was announced without use says nothing";
  for (const auto& one : ordinary) EXPECT_EQ(one.used, 8);
}

}  // namespace
}  // namespace hw::service
