// tests/published/t8_use.json: the day on which cumulative use reaches an amount. The bootstrap of weekdays has to meet
// it to the day and its chances to 1e-9.

#include <fstream>
#include <sstream>

#include <boost/json.hpp>
#include <gtest/gtest.h>

#include "libs/formats/json.h"
#include "src/due/plain_forecasts.h"
#include "src/due/use_forecast.h"
#include "tests/places/places.h"

namespace hw::tests {
namespace {

using boost::json::value;

LocalDate date_of(const value& text) { return *parse_local_date(std::string_view(text.as_string())); }

std::vector<LocalDate> dates_of(const value& list) {
  std::vector<LocalDate> dates;
  for (const value& one : list.as_array()) dates.push_back(date_of(one));
  return dates;
}

class Published : public testing::Test {
 protected:
  Published() {
    std::ifstream file(in_source("tests/published/t8_use.json"));
    std::stringstream text;
    text << file.rdbuf();
    all_ = boost::json::parse(text.str()).at("cases");
  }
  const value& one(std::string_view id) const {
    for (const value& each : all_.as_array()) {
      if (each.at("id").as_string() == id) return each;
    }
    throw std::runtime_error("no such case");
  }
  // The history stands with the first case; the others refer to it.
  due::UseHistory history_of(const value& input) const {
    due::UseHistory history{date_of(input.at("today")), {}, dates_of(input.at("closed"))};
    const value& first = one("T8-01").at("input");
    LocalDate day = date_of(first.at("first_day"));
    for (const value& hours : first.at("hours").as_array()) {
      history.days.push_back({day, hours.to_number<double>()});
      ++day;
    }
    return history;
  }
  due::DueDistribution bootstrap_of(std::string_view id) const {
    const value& input = one(id).at("input");
    const due::UseHistory history = history_of(input);
    return due::weekday_bootstrap(*due::arrange(history), history, input.at("remaining").to_number<double>());
  }

  value all_;
};

void expect_quantiles(const due::DueDistribution& due, const value& dates) {
  for (const auto& expected : dates.as_object()) {
    const auto day = due::quantile(due, std::stod(std::string(expected.key())));
    ASSERT_TRUE(day);
    EXPECT_EQ(print(*day), expected.value().as_string()) << expected.key();
  }
}

TEST_F(Published, TheBootstrapMatchesPublished_T8) {
  for (const char* id : {"T8-01", "T8-02", "T8-03"}) {
    const value& expected = one(id).at("expected");
    const due::DueDistribution due = bootstrap_of(id);
    expect_quantiles(due, expected.at("quantile_dates"));
    for (const value& point : expected.at("cdf").as_array()) {
      EXPECT_NEAR(due::chance_by(due, date_of(point.at("date"))), point.at("P").to_number<double>(), 1e-9) << id;
    }
  }
}

TEST_F(Published, APatternWithoutChanceMatchesPublished_T8) {
  const value& four = one("T8-04");
  std::array<double, 7> pattern{};
  const auto fill = [&](const value& input) {
    for (std::size_t n = 0; n < 7; ++n) pattern[n] = input.at("pattern").at(n).to_number<double>();
  };
  fill(four.at("input"));
  for (std::size_t n = 0; n < four.at("expected").as_array().size(); ++n) {
    const auto day =
        due::pattern_due_day(pattern, date_of(four.at("input").at("today")), dates_of(four.at("input").at("closed")),
                             four.at("input").at("remaining").at(n).to_number<double>());
    ASSERT_TRUE(day);
    EXPECT_EQ(print(*day), four.at("expected").at(n).as_string());
  }
  const value& seven = one("T8-07");
  fill(seven.at("input"));
  for (std::size_t start = 0; start < 2; ++start) {
    for (std::size_t n = 0; n < 2; ++n) {
      const auto day = due::pattern_due_day(pattern, date_of(seven.at("input").at("starts").at(start)), {},
                                            seven.at("input").at("remaining").at(n).to_number<double>());
      ASSERT_TRUE(day);
      EXPECT_EQ(print(*day), seven.at("expected").at(start).at(n).as_string());
    }
  }
}

TEST_F(Published, TheFirstOfUseAndCalendarMatchesPublished_T8) {
  const value& five = one("T8-05");
  const std::vector<due::DueDistribution> dues = {bootstrap_of("T8-02"),
                                                  due::on_calendar(date_of(five.at("input").at("calendar_limit")))};
  expect_quantiles(due::first_of(dues, due::Together::alike), five.at("expected"));
  expect_quantiles(due::first_of(dues, due::Together::independent), five.at("expected"));
}

TEST_F(Published, AMachineThatNeverRanMatchesPublished_T8) {
  due::UseHistory history{LocalDate::of(2025, 3, 3), {}, {}};
  for (int day = 28; day > 0; --day) history.days.push_back({history.start - day, 0});
  EXPECT_TRUE(due::weekday_bootstrap(*due::arrange(history), history, 10).empty());
  const auto forecast = due::UseForecast::prepare(history);
  ASSERT_TRUE(forecast);
  for (const auto& day : forecast->due_days(10)) EXPECT_FALSE(day);
}

// The forecast proper is another model, but on a regular machine it has to say nearly the same.
TEST_F(Published, TheForecastIsNearPublished_T8) {
  const value& input = one("T8-02").at("input");
  const auto forecast = due::UseForecast::prepare(history_of(input));
  ASSERT_TRUE(forecast);
  const auto days = forecast->due_days(620);
  EXPECT_LE(std::abs(*days[3] - LocalDate::of(2025, 5, 7)), 2);
}

}  // namespace
}  // namespace hw::tests
