#include "src/terminal/backtest_plot.h"

#include <algorithm>

#include <fmt/format.h>

#include "src/due/future_days.h"

namespace hw::terminal {
namespace {

constexpr double width = 900, panel_height = 170, margin_left = 60, margin_right = 20, margin_top = 30,
                 margin_bottom = 24;

// One horizon's forecasts, in order of the day on which they were made.
using Forecasts = std::vector<const due::PastForecast*>;

std::string escaped(const std::string& text) {
  std::string safe;
  for (const char c : text) {
    if (c == '<')
      safe += "&lt;";
    else if (c == '&')
      safe += "&amp;";
    else
      safe += c;
  }
  return safe;
}

class Panel {
 public:
  Panel(const Forecasts& forecasts, double top) : forecasts_(forecasts), top_(top) {
    first_on_ = forecasts.front()->made_on;
    last_on_ = std::max(forecasts.back()->made_on, first_on_ + 1);
    std::vector<int> heights;
    for (const auto* one : forecasts) {
      heights.push_back(one->outcome - one->made_on);
      if (one->days[5]) heights.push_back(*one->days[5] - one->made_on);
    }
    std::sort(heights.begin(), heights.end());
    // A few forecasts far off do not make the others flat.
    days_max_ = std::max(1, heights[heights.size() * 98 / 100]) * 1.1;
  }

  std::string draw(const std::string& title) const {
    return fmt::format("<text x=\"{:.0f}\" y=\"{:.0f}\" font-weight=\"bold\">{}</text>\n", margin_left, top_ + 18,
                       title) +
           axes() + band() + median() + outcomes();
  }

 private:
  double x(LocalDate day) const {
    const double part = static_cast<double>(day - first_on_) / static_cast<double>(last_on_ - first_on_);
    return margin_left + part * (width - margin_left - margin_right);
  }
  double y(int days) const {
    const double part = std::min(1.0, days / days_max_);
    return top_ + panel_height - margin_bottom - part * (panel_height - margin_top - margin_bottom);
  }
  std::string point(const due::PastForecast& one, std::size_t chance) const {
    const int days = one.days[chance] ? *one.days[chance] - one.made_on : due::horizon_days;
    return fmt::format("{:.1f},{:.1f} ", x(one.made_on), y(days));
  }

  std::string axes() const {
    std::string text;
    for (const double part : {0.0, 0.5, 1.0}) {
      const int days = static_cast<int>(part * days_max_ / 1.1);
      text += fmt::format(
          "<line x1=\"{0:.0f}\" x2=\"{1:.0f}\" y1=\"{2:.1f}\" y2=\"{2:.1f}\" stroke=\"#ccc\"/>"
          "<text x=\"{3:.0f}\" y=\"{4:.1f}\" text-anchor=\"end\">{5} d</text>\n",
          margin_left, width - margin_right, y(days), margin_left - 6, y(days) + 4, days);
    }
    return text + fmt::format(
                      "<text x=\"{:.0f}\" y=\"{:.0f}\">{}</text><text x=\"{:.0f}\" y=\"{:.0f}\" "
                      "text-anchor=\"end\">{}</text>\n",
                      margin_left, top_ + panel_height - 6, print(first_on_), width - margin_right,
                      top_ + panel_height - 6, print(last_on_));
  }

  std::string band() const {
    std::string points;
    for (const auto* one : forecasts_) points += point(*one, 1);
    for (auto one = forecasts_.rbegin(); one != forecasts_.rend(); ++one) points += point(**one, 5);
    return fmt::format("<polygon points=\"{}\" fill=\"#9ec5e8\" fill-opacity=\"0.6\"/>\n", points);
  }

  std::string median() const {
    std::string points;
    for (const auto* one : forecasts_) points += point(*one, 3);
    return fmt::format("<polyline points=\"{}\" fill=\"none\" stroke=\"#1b5e9b\"/>\n", points);
  }

  std::string outcomes() const {
    std::string text;
    for (const auto* one : forecasts_) {
      text += fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"1.6\"/>", x(one->made_on),
                          y(one->outcome - one->made_on));
    }
    return text + "\n";
  }

  Forecasts forecasts_;
  double top_;
  LocalDate first_on_, last_on_;
  double days_max_ = 1;
};

}  // namespace

std::string draw_backtests(const std::vector<CounterBacktest>& counters) {
  std::string panels;
  double top = 0;
  for (const CounterBacktest& one : counters) {
    for (const due::HorizonScores& horizon : one.backtest.horizons) {
      Forecasts forecasts;
      for (const due::PastForecast& forecast : one.backtest.forecasts) {
        if (forecast.horizon_days == horizon.horizon_days) forecasts.push_back(&forecast);
      }
      if (forecasts.empty()) continue;
      panels += Panel(forecasts, top)
                    .draw(fmt::format("{}, about {} days ahead: band 80 % range, line median, dots outcome",
                                      escaped(one.counter), horizon.horizon_days));
      top += panel_height;
    }
  }
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" width=\"{0:.0f}\" "
      "height=\"{1:.0f}\" font-family=\"sans-serif\" font-size=\"12\">\n"
      "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n{2}</svg>\n",
      width, top, panels);
}

}  // namespace hw::terminal
