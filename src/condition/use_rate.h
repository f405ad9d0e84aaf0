#pragma once
// What a machine uses up for each hour that it works: amounts that were filled in, over the hours of a counter between
// fills (way oil per axis hour, coolant concentrate per spindle hour). A day's amount says little where the machine
// stood; an hour's amount can be compared.
//
//   rate_i = amount_i / (hours_i - hours_{i-1})    over all = sum of amounts after the first / all hours
//
// A fill replaces what was used since the fill before, as long as it is filled to the same mark; the first fill only
// sets the mark. The trend over the fills is that of Mann-Kendall on the rates by the hours in the middle of each.

#include <span>
#include <string_view>
#include <vector>

#include "src/condition/mann_kendall.h"

namespace hw::condition {

struct Fill {
  double hours = 0;   // the counter's total when it was filled
  double amount = 0;  // in any unit, above 0
};

// What is used up, and so what less or more of it means.
enum class Consumable { way_oil, hydraulic_oil, coolant, spindle_oil, other };

enum class RateTrend { none_seen, less, more };

struct UseRates {
  std::vector<double> rates;     // amount per hour, one less than fills
  double over_all = 0;           // amount per hour
  double last_against_rest = 0;  // the last rate over the median of those before; 1 where there are none
  MannKendall trend = {};        // all 0 and p = 1 with fewer than three rates
  RateTrend direction = RateTrend::none_seen;
  double p_one_sided = 0.5;  // exact up to ten rates
};

// A trend counts from this one-sided p downward (own choice: one false word in twenty).
inline constexpr double rate_trend_p_max = 0.05;

// Refuses fewer than two fills, hours that do not rise strictly, amounts that are not above 0.
Result<UseRates> use_rates(std::span<const Fill> fills);

// "less than before: look for blocked metering valves ..."; common practice, from memory, empty where no trend is seen.
std::string_view meaning_of(Consumable consumable, RateTrend direction);

}  // namespace hw::condition
