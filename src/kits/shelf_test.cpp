#include "src/kits/shelf.h"

#include <algorithm>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace hw::kits {
namespace {

Instant minute(int n) { return Instant::from_millis(60'000LL * n); }
LocalDate day(int n) { return *parse_local_date("2026-03-02") + n; }

TEST(Shelf, TwoPeopleWhoTakeTheLastOneLeaveADifferenceUntilItIsCounted) {
  std::vector<StockMove> moves{{MovementKind::received, 1, minute(0), 1},
                               {MovementKind::taken, 1, minute(10), 3},
                               {MovementKind::taken, 1, minute(11), 2}};
  Shelf shelf = shelf_of(moves);
  EXPECT_EQ(shelf.book, 0);
  EXPECT_EQ(shelf.difference, -1);
  moves.push_back({MovementKind::received, 4, minute(20), 4});
  shelf = shelf_of(moves);
  EXPECT_EQ(shelf.book, 4);
  EXPECT_EQ(shelf.difference, -1) << "a delivery does not say who was wrong";
  moves.push_back({MovementKind::counted, 3, minute(30), 5});
  shelf = shelf_of(moves);
  EXPECT_EQ(shelf.book, 3);
  EXPECT_EQ(shelf.difference, 0);
  EXPECT_EQ(shelf.steps.back().change, -1);
}

TEST(Shelf, WhatExpiresFirstIsTakenFirstAndWhatIsTooOldIsNotGood) {
  const std::vector<StockMove> moves{{MovementKind::received, 5, minute(0), 1, {}, day(30)},
                                     {MovementKind::received, 5, minute(1), 2, {}, day(10)},
                                     {MovementKind::received, 2, minute(2), 3},
                                     {MovementKind::taken, 1, minute(3), 4}};
  const Shelf shelf = shelf_of(moves);
  ASSERT_EQ(shelf.batches.size(), 3);
  EXPECT_EQ(shelf.batches[0].quantity, 4);
  EXPECT_EQ(shelf.batches[0].best_before, day(10));
  EXPECT_EQ(good_on(shelf, day(10)), 11);
  EXPECT_EQ(good_on(shelf, day(11)), 7);
  EXPECT_EQ(good_on(shelf, day(31)), 2);
}

TEST(Shelf, WhoTakesSomethingTakesWhatIsStillGood) {
  const Instant noon = *parse_instant("2026-03-20T12:00:00Z");
  std::vector<StockMove> moves{{MovementKind::received, 3, minute(0), 1, {}, day(10)},
                               {MovementKind::received, 5, minute(1), 2},
                               {MovementKind::taken, 3, noon, 3}};
  EXPECT_EQ(good_on(shelf_of(moves), day(18)), 2) << "the expired ones still lie there";
  EXPECT_EQ(shelf_of(moves).book, 5);
  moves.push_back({MovementKind::scrapped, 3, noon, 4});
  EXPECT_EQ(good_on(shelf_of(moves), day(18)), 2);
  EXPECT_EQ(shelf_of(moves).book, 2);
}

TEST(Shelf, ASerialNumberIsWhereItsLastMovementPutIt) {
  const std::vector<StockMove> moves{{MovementKind::received, 2, minute(0), 1, {"S1", "S2"}},
                                     {MovementKind::taken, 1, minute(1), 2, {"S2"}}};
  const Shelf shelf = shelf_of(moves);
  EXPECT_EQ(shelf.serials.at("S1").kind, MovementKind::received);
  EXPECT_EQ(shelf.serials.at("S2").kind, MovementKind::taken);
  EXPECT_EQ(shelf.serials.at("S2").move, 1);
}

std::vector<StockMove> some_moves() {
  const auto amounts = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 400));
  std::vector<StockMove> moves;
  for (const int amount : amounts) {
    const auto kind = static_cast<MovementKind>(amount % 5);
    const auto best_before = amount % 7 == 0 ? std::optional{day(amount % 20)} : std::nullopt;
    moves.push_back({kind,
                     0.1 * (amount / 5 % 40),
                     minute(static_cast<int>(moves.size()) + 1),
                     static_cast<std::int64_t>(moves.size()),
                     {},
                     best_before});
  }
  return moves;
}

RC_GTEST_PROP(Shelf, BatchesAddUpToTheBookWhichIsNeverBelowNothing, ()) {
  const auto moves = some_moves();
  const Shelf shelf = shelf_of(moves);
  double sum = 0;
  for (const Batch& batch : shelf.batches) sum += batch.quantity;
  RC_ASSERT(std::abs(sum - shelf.book) < 1e-6);
  RC_ASSERT(shelf.book >= 0);
  RC_ASSERT(shelf.difference <= 0);
}

RC_GTEST_PROP(Shelf, NothingIsLostOrMade, ()) {
  auto moves = some_moves();
  std::erase_if(moves, [](const StockMove& one) { return one.kind == MovementKind::counted; });
  double in = 0;
  double out = 0;
  for (const StockMove& one : moves) {
    (one.kind == MovementKind::received || one.kind == MovementKind::returned ? in : out) += one.quantity;
  }
  const Shelf shelf = shelf_of(moves);
  RC_ASSERT(std::abs(shelf.book + shelf.difference - (in - out)) < 1e-6);
}

}  // namespace
}  // namespace hw::kits
