#include "src/sheets/card_text.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

namespace hw::sheets {
namespace {

using catalogue::Bounds;

constexpr std::array<std::string_view, 12> english_months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                          "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
constexpr std::array<std::string_view, 7> english_days{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
constexpr std::array<std::string_view, 7> german_days{"Mo", "Di", "Mi", "Do", "Fr", "Sa", "So"};

struct LimitWords {
  std::string_view between, at_least, at_most, act_below, act_above, act_outside;
};
constexpr LimitWords english_limits{"{} to {}",     "at least {}",  "at most {}",
                                    "act below {}", "act above {}", "act below {} or above {}"};
constexpr LimitWords german_limits{"{} bis {}",        "mindestens {}",   "höchstens {}",
                                   "handeln unter {}", "handeln über {}", "handeln unter {} oder über {}"};

struct EndWords {
  std::string_view both, only_min, only_max;
};

std::string print_ends(const Bounds& bounds, const EndWords& words, CardLanguage language) {
  const auto number = [&](double value) { return print_number(value, language); };
  if (bounds.min && bounds.max) return fmt::format(fmt::runtime(words.both), number(*bounds.min), number(*bounds.max));
  if (bounds.min) return fmt::format(fmt::runtime(words.only_min), number(*bounds.min));
  return bounds.max ? fmt::format(fmt::runtime(words.only_max), number(*bounds.max)) : "";
}

}  // namespace

std::string print_number(double value, CardLanguage language) {
  std::string text = fmt::format("{}", value);
  if (language == CardLanguage::german) std::replace(text.begin(), text.end(), '.', ',');
  return text;
}

std::string print_minutes(double minutes) {
  const auto whole = std::llround(minutes);
  return whole < 60 ? fmt::format("{} min", whole) : fmt::format("{} h {:02} min", whole / 60, whole % 60);
}

std::string print_clock(double minutes) {
  const auto whole = std::llround(minutes);
  return fmt::format("{}:{:02}", whole / 60, whole % 60);
}

std::string print_day(LocalDate day, CardLanguage language) {
  const std::string iso = hw::print(day);  // YYYY-MM-DD
  const auto weekday = static_cast<std::size_t>(iso_weekday(day) - 1);
  const std::string year = iso.substr(0, iso.size() - 6);
  const std::string month = iso.substr(iso.size() - 5, 2);
  const std::string number = iso.substr(iso.size() - 2);
  if (language == CardLanguage::german) return fmt::format("{} {}.{}.{}", german_days[weekday], number, month, year);
  return fmt::format("{} {} {} {}", english_days[weekday], std::stoi(number),
                     english_months.at(static_cast<std::size_t>(std::stoi(month) - 1)), year);
}

std::string print_limits(const catalogue::TaskReading& reading, CardLanguage language) {
  const LimitWords& words = language == CardLanguage::german ? german_limits : english_limits;
  const std::string right = print_ends(reading.warning, {words.between, words.at_least, words.at_most}, language);
  const std::string act = print_ends(reading.action, {words.act_outside, words.act_below, words.act_above}, language);
  return right.empty() || act.empty() ? right + act : right + ", " + act;
}

}  // namespace hw::sheets
