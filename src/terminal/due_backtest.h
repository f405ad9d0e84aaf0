#pragma once
// hourwright due backtest: reads histories, runs src/due/backtest.h over each, tells it as tables, JSON and a drawing.

#include <string>
#include <vector>

#include "src/due/backtest.h"
#include "src/terminal/command_line.h"

namespace hw::terminal {

struct BacktestCall {
  std::vector<std::string> files;
  due::BacktestOptions options;
  std::string zone;
  std::string plot;  // empty: none
  bool is_json = false;
};

// One counter's backtest.
struct CounterBacktest {
  std::string counter;  // the file's column, or the counter that its readings name
  due::Backtest backtest;
};

// Errors: those of reading; bad_input where no forecast had an outcome.
Answer due_backtest(const BacktestCall& call);

std::string backtest_tables(const std::vector<CounterBacktest>& counters);
std::string backtest_json(const std::vector<CounterBacktest>& counters);

}  // namespace hw::terminal
