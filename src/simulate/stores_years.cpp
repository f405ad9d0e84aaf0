#include "src/simulate/stores_years.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <memory>
#include <string>

namespace hw::simulate {
namespace {

// The stores while they are played.
class PlayedStores {
 public:
  PlayedStores(const StoresPlay& play, const OrderingRule& rule)
      : play_(play),
        rule_(rule),
        floor_(play.plan),
        on_hand_(floor_.parts().size(), 2),
        owed_(on_hand_.size()),
        took_days_(floor_.suppliers().size()),
        met_by_year_(static_cast<std::size_t>(play.years)),
        needs_by_year_(met_by_year_.size()) {
    for (const double pieces : on_hand_) outcome_.begun_with += pieces;
  }

  StoresOutcome play() {
    const int end = play_.days_before + 365 * play_.years;
    while (floor_.day() < end) play_a_day();
    finish();
    return outcome_;
  }

 private:
  bool counts() const { return floor_.day() >= play_.days_before; }
  std::size_t year() const { return static_cast<std::size_t>((floor_.day() - play_.days_before) / 365); }

  void play_a_day() {
    receive();
    place_orders();
    if (counts()) {
      for (std::size_t n = 0; n < on_hand_.size(); ++n) value_days_ += on_hand_[n] * floor_.parts()[n].price;
    }
    const bool counted = counts();
    const std::size_t of_year = counted ? year() : 0;
    for (const KitTaken& kit : floor_.work_a_day()) take(kit, counted, of_year);
  }

  void receive() {
    for (const OrderUnderWay& order : under_way_) {
      if (order.arrives_on != floor_.day()) continue;
      outcome_.received += order.quantity;
      on_hand_[order.part] += order.quantity;
      const double given = std::min(on_hand_[order.part], owed_[order.part]);
      give(order.part, given);
      owed_[order.part] -= given;
    }
    std::erase_if(under_way_, [&](const OrderUnderWay& order) { return order.arrives_on == floor_.day(); });
    for (const auto& [supplier, ordered_on, arrives_on] : deliveries_) {
      if (arrives_on == floor_.day()) took_days_[supplier].push_back(arrives_on - ordered_on);
    }
    std::erase_if(deliveries_, [&](const Delivery& one) { return one.arrives_on == floor_.day(); });
  }

  void place_orders() {
    const std::vector<double> ordered = rule_.order({floor_, on_hand_, owed_, under_way_, took_days_});
    std::vector<char> is_asked(took_days_.size());
    for (std::size_t n = 0; n < ordered.size(); ++n) {
      if (ordered[n] <= 0) continue;
      const int supplier = floor_.parts()[n].supplier;
      const int arrives_on = floor_.day() + floor_.delivery_days(supplier, floor_.day());
      under_way_.push_back({n, ordered[n], floor_.day(), arrives_on});
      outcome_.lines += counts() ? 1 : 0;
      char& asked = is_asked[static_cast<std::size_t>(supplier)];
      if (asked == 0) deliveries_.push_back({static_cast<std::size_t>(supplier), floor_.day(), arrives_on});
      outcome_.orders += asked == 0 && counts() ? 1 : 0;
      asked = 1;
    }
  }

  void give(std::size_t part, double quantity) {
    on_hand_[part] -= quantity;
    outcome_.taken += quantity;
  }

  void take(const KitTaken& kit, bool counted, std::size_t of_year) {
    bool is_complete = true;
    for (const Taken& taken : kit.takes) {
      const double given = std::min(on_hand_[taken.part], taken.quantity);
      give(taken.part, given);
      owed_[taken.part] += taken.quantity - given;
      const bool is_met = given == taken.quantity;
      is_complete = is_complete && is_met;
      if (!counted) continue;
      needs_by_year_[of_year] += 1;
      met_by_year_[of_year] += is_met ? 1 : 0;
    }
    if (!counted || !kit.is_stop) return;
    ++outcome_.stops;
    outcome_.stops_met += is_complete ? 1 : 0;
  }

  void finish() {
    double squares = 0;
    for (std::size_t n = 0; n < met_by_year_.size(); ++n) {
      outcome_.needs += needs_by_year_[n];
      outcome_.needs_met += met_by_year_[n];
    }
    outcome_.service = double(outcome_.needs_met) / std::max(outcome_.needs, 1);
    for (std::size_t n = 0; n < met_by_year_.size(); ++n) {
      squares += std::pow(double(met_by_year_[n]) / std::max(needs_by_year_[n], 1) - outcome_.service, 2);
    }
    const double years = play_.years;
    outcome_.service_se = std::sqrt(squares / (years - 1) / years);
    outcome_.stock_value = value_days_ / (365 * years);
    outcome_.cost = outcome_.stock_value * play_.costs.holding_rate_per_year +
                    (outcome_.orders * play_.costs.order + outcome_.lines * play_.costs.line +
                     (outcome_.needs - outcome_.needs_met) * play_.costs.missing) /
                        years;
    for (const double pieces : on_hand_) outcome_.left += pieces;
  }

  struct Delivery {
    std::size_t supplier = 0;
    int ordered_on = 0, arrives_on = 0;
  };

  const StoresPlay& play_;
  const OrderingRule& rule_;
  StoresFloor floor_;
  std::vector<double> on_hand_, owed_;
  std::vector<OrderUnderWay> under_way_;
  std::vector<Delivery> deliveries_;
  std::vector<std::vector<double>> took_days_;
  std::vector<int> met_by_year_, needs_by_year_;
  double value_days_ = 0;
  StoresOutcome outcome_;
};

using MakeRule = std::function<std::unique_ptr<OrderingRule>(double level)>;

// The least level, to a hundredth, at which the rule serves at least so well.
ComparedRule raised_to(const StoresPlay& play, const std::string& name, const MakeRule& make, double service) {
  double low = 0, high = 1;
  StoresOutcome outcome = play_stores(play, *make(high));
  while (outcome.service < service && high < 1000) outcome = play_stores(play, *make(high *= 2));
  while (high - low > 0.01) {
    const double middle = (low + high) / 2;
    const StoresOutcome tried = play_stores(play, *make(middle));
    (tried.service < service ? low : high) = middle;
    if (tried.service >= service) outcome = tried;
  }
  return {name, high, outcome};
}

}  // namespace

StoresOutcome play_stores(const StoresPlay& play, const OrderingRule& rule) { return PlayedStores(play, rule).play(); }

StoresComparison compare_rules(const StoresPlay& play, double wanted) {
  const MakeRule so_many = [](double level) { return std::make_unique<SoManyOfEverything>(level); };
  const MakeRule min_max = [](double level) { return std::make_unique<MinMax>(level); };
  StoresComparison comparison;
  comparison.wanted = wanted;
  comparison.ours = {"proposed", wanted, play_stores(play, ProposedOrders(wanted, play.costs))};
  comparison.as_usual = {{"two of everything", 2, play_stores(play, *so_many(2))},
                         {"common practice", 1.5, play_stores(play, *min_max(1.5))}};
  const double service = comparison.ours.outcome.service;
  comparison.as_good = {raised_to(play, "so many of everything", so_many, service),
                        raised_to(play, "common practice, scaled", min_max, service)};
  return comparison;
}

}  // namespace hw::simulate
