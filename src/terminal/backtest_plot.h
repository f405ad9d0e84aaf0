#pragma once
// A backtest as a drawing (SVG): per counter and horizon one panel; along it the days on which forecasts were made, up
// the days ahead. The band is the 80 % range, the line the median, the dots what happened.

#include <string>
#include <vector>

#include "src/terminal/due_backtest.h"

namespace hw::terminal {

std::string draw_backtests(const std::vector<CounterBacktest>& counters);

}  // namespace hw::terminal
