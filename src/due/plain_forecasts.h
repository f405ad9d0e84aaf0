#pragma once
// Forecasts that anybody could make with a spreadsheet: what the forecast proper has to beat.

#include <array>
#include <optional>
#include <string_view>

#include "src/due/daily_use.h"
#include "src/due/due_dates.h"

namespace hw::due {

// mean_30_days     every day brings the mean of the known days among the last 30
// last_week        the last seven days over and over, unknown ones as the mean of the known ones
// mean_365_days    every day brings the mean of the known days among the last 365
// Where none of its days is known, each goes by all known days.
enum class PlainForecast { mean_30_days, last_week, mean_365_days };
inline constexpr std::array<PlainForecast, 3> plain_forecasts = {PlainForecast::mean_30_days, PlainForecast::last_week,
                                                                 PlainForecast::mean_365_days};

// "mean of 30 days", "last week again", "mean of 365 days".
std::string_view word_of(PlainForecast forecast);

// The day by whose end `left` (finite) is used up; closed days bring nothing. Nothing beyond ten years, or without a
// known day to go by. `past` is the history as arranged.
std::optional<LocalDate> plain_due_day(PlainForecast forecast, const PastUse& past, const UseHistory& history,
                                       double left);

// Each future day draws its use, independently and with equal chance, from the recorded days of the same weekday; a
// closed day brings nothing. A weekday without a record draws from all. Exact by convolution where the amounts and
// `left` lie on a common grid of at least a thousandth; else on a grid of 400 steps to `left`, each amount split
// between its two neighbours so that its mean stays.
DueDistribution weekday_bootstrap(const PastUse& past, const UseHistory& history, double left);

// What the mean use of each weekday (Monday to Sunday, none negative) makes of `left`, without chance.
std::optional<LocalDate> pattern_due_day(const std::array<double, 7>& use, LocalDate start,
                                         const std::vector<LocalDate>& closed, double left);

}  // namespace hw::due
