#include "src/kits/propose_orders.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/kits/line_reasons.h"
#include "src/kits/lot_size.h"
#include "src/kits/newsvendor.h"
#include "src/kits/poisson.h"
#include "src/kits/stores_test.h"

namespace hw::kits {
namespace {

const OrderLine* line_of(const StoresProposal& proposal, std::size_t part) {
  for (const ProposedOrder& order : proposal.orders) {
    for (const OrderLine& line : order.lines) {
      if (line.part == part) return &line;
    }
  }
  return nullptr;
}

// What is ordered today of the one part with that stock; 0: nothing.
double ordered_today(PartAhead part, double on_hand, const LeadTime& lead, double order_cost) {
  part.on_hand = on_hand;
  const auto proposal = propose(one_part(part, lead, order_cost)).value();
  const OrderLine* line = line_of(proposal, 0);
  return line != nullptr && line->when != When::later ? line->quantity : 0;
}

// Without a cost of ordering it is one for one: up to the level that meets the demand of lead time and one day.
TEST(Propose, WithoutOrderCostItIsBaseStock) {
  for (const double rate : {0.01, 0.1, 0.7}) {
    for (const double wanted : {0.9, 0.95, 0.99}) {
      const double level = poisson_level(rate * 15, wanted);
      const PartAhead part = failing_part(rate, 0, wanted);
      EXPECT_EQ(ordered_today(part, level, steady_lead(14), 0), 0) << rate << " " << wanted;
      for (double stock = 0; stock < level; ++stock) {
        EXPECT_EQ(ordered_today(part, stock, steady_lead(14), 0), level - stock) << rate << " " << wanted;
      }
    }
  }
}

// The same in cost: the level is the newsvendor's for what a unit costs a day, missing and left.
TEST(Propose, WithAPriceForMissingItIsTheNewsvendor) {
  PartAhead part = failing_part(0.2, 0, 0.01);
  part.missing_cost_per_day = 1;
  for (const double price : {20.0, 200.0, 700.0}) {
    part.price = price;
    const double level = newsvendor_poisson({price * 0.2 / 365, 1}, 0.2 * 15).level;
    for (double stock = 0; stock <= level + 1; ++stock) {
      EXPECT_EQ(ordered_today(part, stock, steady_lead(14), 0), std::max(level - stock, 0.0)) << price;
    }
  }
}

// With a cost of ordering, and Poisson demand: the reorder point and the lot of the exact (r, Q) policy. Days are
// whole here: one is looked at the end of each day, so the demand is that of lead time and a day.
TEST(Propose, WithOrderCostItIsReorderPointAndLot) {
  PartAhead part = failing_part(0.15, 0, 0.01);
  part.price = 3650;  // 2 a day
  part.missing_cost_per_day = 15;
  const ReorderPolicy exact = best_reorder_policy({2, 15, 100, 0.15, 20}).value();
  ASSERT_EQ(exact.lot, 5);
  double reorder_at = -1;
  for (double stock = 0; stock < 12; ++stock) {
    if (ordered_today(part, stock, steady_lead(19), 100) > 0) reorder_at = stock;
  }
  EXPECT_EQ(reorder_at, exact.reorder_at);
  EXPECT_NEAR(ordered_today(part, reorder_at, steady_lead(19), 100), exact.lot, 1);
}

TEST(Propose, AnAgreedStopIsOrderedForWhenItsDeliveryIsSureEnough) {
  PartAhead part;
  part.key = "filter";
  part.price = 40;
  part.needs.certain.push_back({monday + 40, 2});
  const LeadTime lead(10);
  const auto proposal = propose(one_part(part, lead, 20)).value();
  const OrderLine* line = line_of(proposal, 0);
  ASSERT_NE(line, nullptr);
  EXPECT_EQ(line->quantity, 2);
  EXPECT_EQ(line->when, When::later);
  EXPECT_EQ(line->last_on, monday + 40 - lead.quantile(0.95));
  EXPECT_EQ(line->short_on, monday + 40);
  EXPECT_EQ(line->chance_without, 0);
  EXPECT_GT(line->chance_now, 0.99);
  EXPECT_EQ(line->reasons[0].saying.code, "needed-for-stops");
  part.needs.certain[0].on = monday + 9;
  const auto late = propose(one_part(part, lead, 20)).value();
  EXPECT_EQ(line_of(late, 0)->when, When::late);
  EXPECT_NEAR(line_of(late, 0)->chance_now, lead.within(9), 1e-9);
}

TEST(Propose, WholePacksMinimumAndShelfLifeAreKept) {
  PartAhead part = failing_part(0.05, 0, 0.95);
  part.pack = 4;
  EXPECT_EQ(std::fmod(ordered_today(part, 0, steady_lead(14), 30), 4), 0);
  part.minimum = 10;
  EXPECT_EQ(ordered_today(part, 0, steady_lead(14), 0), 12);
  part.pack = 1;
  part.minimum = 0;
  const double unlimited = ordered_today(part, 0, steady_lead(14), 500);
  part.shelf_life_days = 120;
  const double limited = ordered_today(part, 0, steady_lead(14), 500);
  EXPECT_LT(limited, unlimited);
  EXPECT_GE(poisson_above(0.05 * 135, limited - 1), 0.9);
}

TEST(Propose, PartsOfASupplierJoinAnOrderThatGoesAnyway) {
  StoresAhead stores = one_part(failing_part(0.1, 0, 0.95), steady_lead(14), 80);
  PartAhead soon = failing_part(0.1, 6, 0.95);
  soon.key = "belt";
  PartAhead full = failing_part(0.1, 40, 0.95);
  full.key = "full";
  stores.parts.push_back(soon);
  stores.parts.push_back(full);
  const auto proposal = propose(stores).value();
  ASSERT_EQ(proposal.orders.size(), 1U);
  EXPECT_NE(line_of(proposal, 0), nullptr);
  ASSERT_NE(line_of(proposal, 1), nullptr);
  EXPECT_EQ(line_of(proposal, 1)->when, When::later) << "it could wait, but goes with the order of today";
  EXPECT_EQ(proposal.orders[0].order_on, monday);
  EXPECT_EQ(line_of(proposal, 2), nullptr);
  stores.suppliers[0].order_cost = 0;
  EXPECT_EQ(line_of(propose(stores).value(), 1), nullptr) << "an order costs nothing: it can go by itself later";
}

TEST(Propose, AnOrderThatComesTooLateIsToBeChasedNotDoubled) {
  PartAhead part;
  part.needs.certain.push_back({monday + 5, 1});
  part.open.push_back({1, 2, 12});
  const auto proposal = propose(one_part(part, LeadTime(3), 20)).value();
  EXPECT_TRUE(proposal.orders.empty());
  ASSERT_EQ(proposal.to_chase.size(), 1U);
  EXPECT_EQ(proposal.to_chase[0].chance, 0);
  EXPECT_EQ(proposal.to_chase[0].says.saying.code, "chase-open-order");
  part.open[0].confirmed_in_days = 4;
  EXPECT_TRUE(propose(one_part(part, LeadTime(3), 20)).value().to_chase.empty());
}

TEST(Propose, Property_ADearerHurryNeverOrdersLater) {
  PartAhead part = failing_part(0.05, 4, 0.7);
  LocalDate before = monday + 1000;
  for (const double rush : {0.0, 5.0, 50.0, 500.0, 5000.0}) {
    part.rush_cost = rush;
    const auto proposal = propose(one_part(part, LeadTime(15), 30)).value();
    ASSERT_NE(line_of(proposal, 0), nullptr);
    EXPECT_LE(line_of(proposal, 0)->last_on, before) << rush;
    before = line_of(proposal, 0)->last_on;
  }
  EXPECT_EQ(before, monday);
}

TEST(Propose, WhatItRefusesIsNamed) {
  PartAhead part = failing_part(0.1, 0, 1);
  EXPECT_NE(propose(one_part(part, steady_lead(5), 1)).error().message.find("wanted"), std::string::npos);
  part.wanted = 0.9;
  part.pack = 0;
  EXPECT_NE(propose(one_part(part, steady_lead(5), 1)).error().message.find("pack"), std::string::npos);
}

StoresAhead drawn_stores(std::uint64_t seed) {
  numerics::Random random(seed);
  PartAhead part = failing_part(random.log_between(0.001, 0.3), random.whole_between(0, 5), random.between(0.7, 0.99));
  part.price = random.log_between(1, 2000);
  part.pack = random.whole_between(1, 4);
  for (int n = random.whole_between(0, 3); n > 0; --n) {
    part.needs.certain.push_back({monday + random.whole_between(0, 90), double(random.whole_between(1, 3))});
    const int first = random.whole_between(5, 100);
    part.needs.expected.push_back(
        {{{monday + first, 0.4}, {monday + first + 9, 1}}, double(random.whole_between(1, 2)), 120, 10});
  }
  if (random.chance(0.5)) part.open.push_back({double(random.whole_between(1, 3)), random.whole_between(0, 30), {}});
  const double quoted = random.log_between(2, 40);
  return one_part(part, LeadTime(quoted, std::vector<double>{quoted, quoted * 1.3}), random.between(0, 60));
}

TEST(Propose, Property_MoreStockNeverLowersChancesAndOrdersNoSooner) {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    StoresAhead stores = drawn_stores(seed);
    double chance = 0;
    LocalDate last = monday - 1;
    for (int more = 0; more < 6; ++more, ++stores.parts[0].on_hand) {
      const auto proposal = propose(stores).value();
      EXPECT_GE(proposal.chances[0], chance - 1e-12) << seed;
      chance = proposal.chances[0];
      const OrderLine* line = line_of(proposal, 0);
      if (line == nullptr) continue;
      EXPECT_GE(line->last_on, last) << seed;
      last = line->last_on;
      EXPECT_GE(line->chance_now, line->chance_without - 1e-12) << seed;
      EXPECT_NEAR(std::remainder(line->quantity, stores.parts[0].pack), 0, 1e-9);
      for (const Sentence& reason : line->reasons) {
        EXPECT_NE(std::find(reason_codes.begin(), reason_codes.end(), reason.saying.code), reason_codes.end());
      }
    }
  }
}

}  // namespace
}  // namespace hw::kits
