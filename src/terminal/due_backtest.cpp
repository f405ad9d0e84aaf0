#include "src/terminal/due_backtest.h"

#include <fstream>

#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/terminal/backtest_plot.h"
#include "src/terminal/history_file.h"

namespace hw::due {

BOOST_DESCRIBE_STRUCT(Score, (), (method, count, before, up_to, inside, width_days, pinball_days))
BOOST_DESCRIBE_STRUCT(HorizonScores, (), (horizon_days, scores))
BOOST_DESCRIBE_STRUCT(Backtest, (), (horizons))

}  // namespace hw::due

namespace hw::terminal {

BOOST_DESCRIBE_STRUCT(CounterBacktest, (), (counter, backtest))

namespace {

struct BacktestJson {
  std::vector<double> chances;
  std::vector<CounterBacktest> counters;
};
BOOST_DESCRIBE_STRUCT(BacktestJson, (), (chances, counters))

std::string score_row(const due::Score& score) {
  std::string text = fmt::format("  {:<18}{:>6}{:>9.2f}{:>9.1f}{:>9.0f} %", score.method, score.count,
                                 score.pinball_days, score.width_days, 100.0 * score.inside / score.count);
  for (std::size_t n = 0; n < score.before.size(); ++n) {
    text += fmt::format("{:>9}", fmt::format("{:.0f}-{:.0f}", 100.0 * score.before[n] / score.count,
                                             100.0 * score.up_to[n] / score.count));
  }
  return text + "\n";
}

std::string heading() {
  std::string text = fmt::format("  {:<18}{:>6}{:>9}{:>9}{:>11}", "", "count", "pinball", "width", "in 80 %");
  for (const double chance : due::shown_chances) text += fmt::format("{:>9}", fmt::format("{:.0f} %", 100 * chance));
  return text + "\n";
}

Result<void> write_file(const std::string& path, const std::string& text) {
  std::ofstream file(path, std::ios::binary);
  file << text;
  file.close();
  if (!file) return refuse(ErrorCode::disk_full, "{}: the drawing could not be written there", path);
  return {};
}

Result<std::vector<CounterBacktest>> backtest_all(const BacktestCall& call, const Zone& zone) {
  std::vector<CounterBacktest> counters;
  for (const std::string& path : call.files) {
    HW_TAKE(histories, read_history_file(path, zone));
    for (const NamedHistory& named : histories) {
      auto tested = due::backtest(named.history, call.options);
      if (!tested) return refuse(tested.error().at(fmt::format("{}, {}", path, named.counter)));
      if (!tested->forecasts.empty()) counters.push_back({named.counter, std::move(*tested)});
    }
  }
  if (counters.empty()) {
    return refuse(ErrorCode::bad_input, "{}: too short a history, no forecast made in it has come to its end",
                  call.files.front());
  }
  return counters;
}

}  // namespace

std::string backtest_tables(const std::vector<CounterBacktest>& counters) {
  std::string text =
      "pinball: mean loss in days, less is better. width: of the 80 % range, in days. Under each chance: percent of\n"
      "outcomes before that day, and up to it; the chance should lie between the two.\n";
  for (const CounterBacktest& one : counters) {
    for (const due::HorizonScores& horizon : one.backtest.horizons) {
      const std::string when =
          horizon.horizon_days > 0 ? fmt::format("about {} days ahead", horizon.horizon_days) : "all";
      text += fmt::format("\n{}, {}\n{}", one.counter, when, heading());
      for (const due::Score& score : horizon.scores) text += score_row(score);
    }
  }
  return text;
}

std::string backtest_json(const std::vector<CounterBacktest>& counters) {
  const BacktestJson json{{due::shown_chances.begin(), due::shown_chances.end()}, counters};
  return formats::print_json(json) + "\n";
}

Answer due_backtest(const BacktestCall& call) {
  Zone zone = Zone::utc();
  if (!call.zone.empty()) {
    const auto found = Zone::find(call.zone);
    if (!found) return refuse(ErrorCode::wrong_usage, "--zone: {}", found.error().message);
    zone = *found;
  }
  HW_TAKE(counters, backtest_all(call, zone));
  if (!call.plot.empty()) HW_TRY(write_file(call.plot, draw_backtests(counters)));
  return Said{call.is_json ? backtest_json(counters) : backtest_tables(counters)};
}

}  // namespace hw::terminal
