#pragma once
// Rules by which parts are ordered every morning, to be played against each other.

#include <span>
#include <vector>

#include "src/simulate/stores_floor.h"

namespace hw::simulate {

struct OrderUnderWay {
  std::size_t part = 0;
  double quantity = 0;
  int ordered_on = 0;
  int arrives_on = 0;  // for the play only: no rule looks at it
};

// What a rule sees.
struct StoresView {
  const StoresFloor& floor;
  std::span<const double> on_hand;
  std::span<const double> owed;  // to stops and failures that did not get it
  std::span<const OrderUnderWay> under_way;
  std::span<const std::vector<double>> took_days;  // by supplier: deliveries so far
};

struct OrderCosts {
  double order = 25, line = 3;         // of an order to a supplier, and of each line
  double holding_rate_per_year = 0.2;  // share of the price
  double missing = 150;                // of a need that is not met at once: hurry and standing
};

class OrderingRule {
 public:
  OrderingRule() = default;
  OrderingRule(const OrderingRule&) = delete;
  OrderingRule& operator=(const OrderingRule&) = delete;
  virtual ~OrderingRule() = default;
  // What is ordered today of each part; 0: nothing.
  virtual std::vector<double> order(const StoresView& view) const = 0;
};

// Ours: src/kits with the wanted chance for every part.
class ProposedOrders : public OrderingRule {
 public:
  ProposedOrders(double wanted, const OrderCosts& costs) : wanted_(wanted), costs_(costs) {}
  std::vector<double> order(const StoresView& view) const override;

 private:
  double wanted_;
  OrderCosts costs_;
};

// So many of everything, ordered as soon as one is missing. A level between two numbers means the higher one for
// that share of the parts.
class SoManyOfEverything : public OrderingRule {
 public:
  explicit SoManyOfEverything(double level) : level_(level) {}
  std::vector<double> order(const StoresView& view) const override;

 private:
  double level_;
};

// Common practice: when stock and orders fall to min = times * mean use in the quoted lead time, order up to max = min
// + three months' use. Mean use is known to it exactly.
class MinMax : public OrderingRule {
 public:
  explicit MinMax(double times) : times_(times) {}
  std::vector<double> order(const StoresView& view) const override;

 private:
  double times_;
};

}  // namespace hw::simulate
