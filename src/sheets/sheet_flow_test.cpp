#include "src/sheets/sheet_flow.h"

#include <gtest/gtest.h>

#include "libs/numerics/random.h"

namespace hw::sheets {
namespace {

using Pages = std::vector<std::vector<std::size_t>>;
const PageRoom hundred{90, 100};

TEST(SheetFlow, RowsFillAPageAndGoOnOnTheNext) {
  const std::vector<FlowRow> rows(4, FlowRow{45, RowTie::free, RowKind::content});
  EXPECT_EQ(split_pages(rows, hundred), (Pages{{0, 1}, {2, 3}}));
}

TEST(SheetFlow, AHeadingGoesToTheNextPageWithWhatItHeads) {
  const std::vector<FlowRow> rows{{80, RowTie::free, {}}, {8, RowTie::must, {}}, {20, RowTie::free, {}}};
  EXPECT_EQ(split_pages(rows, hundred), (Pages{{0}, {1, 2}}));
}

TEST(SheetFlow, WhatBelongsTogetherIsDividedOnlyWhereItIsLong) {
  const std::vector<FlowRow> brief{{60, RowTie::free, {}}, {20, RowTie::should, {}}, {19, RowTie::free, {}}};
  EXPECT_EQ(split_pages(brief, hundred), (Pages{{0}, {1, 2}}));
  const std::vector<FlowRow> tall{{60, RowTie::free, {}}, {30, RowTie::should, {}}, {19, RowTie::free, {}}};
  EXPECT_EQ(split_pages(tall, hundred), (Pages{{0, 1}, {2}}));
}

TEST(SheetFlow, AGapIsLeftOutAtTheTopOfAPage) {
  const std::vector<FlowRow> rows{{90, RowTie::free, {}}, {5, RowTie::free, RowKind::gap}, {50, RowTie::free, {}}};
  EXPECT_EQ(split_pages(rows, hundred), (Pages{{0}, {2}}));
}

TEST(SheetFlow, ARowHigherThanAPageHasOneOfItsOwn) {
  const std::vector<FlowRow> rows{{10, RowTie::free, {}}, {300, RowTie::free, {}}, {10, RowTie::free, {}}};
  EXPECT_EQ(split_pages(rows, hundred), (Pages{{0}, {1}, {2}}));
}

std::vector<FlowRow> random_rows(numerics::Random& random) {
  std::vector<FlowRow> rows;
  for (int i = 0; i < 60; ++i) {
    // Headings are followed by what they head, so no more than three rows hold together by `must`.
    const bool may_bind = i % 4 != 3 && i != 59;
    const double draw = random.uniform();
    const RowTie tie = may_bind && draw < 0.3 ? RowTie::must : draw < 0.6 ? RowTie::should : RowTie::free;
    rows.push_back({1 + 23 * random.uniform(), tie, draw > 0.9 ? RowKind::gap : RowKind::content});
  }
  return rows;
}

TEST(SheetFlow, Property_EveryRowStandsOnceInOrderAndNoneIsTorn) {
  numerics::Random random(28);
  for (int round = 0; round < 300; ++round) {
    const auto rows = random_rows(random);
    const auto pages = split_pages(rows, hundred);
    std::size_t next = 0;
    for (std::size_t page = 0; page < pages.size(); ++page) {
      double height_mm = 0;
      ASSERT_FALSE(pages[page].empty()) << "seed 28, round " << round;
      for (const std::size_t row : pages[page]) {
        for (; next < row; ++next) EXPECT_EQ(rows[next].kind, RowKind::gap) << "seed 28, round " << round;
        EXPECT_EQ(row, next++);
        height_mm += rows[row].height_mm;
      }
      EXPECT_LE(height_mm, (page == 0 ? 90 : 100) + 1e-6) << "seed 28, round " << round;
      if (page + 1 < pages.size()) {
        EXPECT_NE(rows[pages[page].back()].tie, RowTie::must) << "seed 28, round " << round;
      }
    }
  }
}

}  // namespace
}  // namespace hw::sheets
