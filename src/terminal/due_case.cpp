#include "src/terminal/due_case.h"

#include <cmath>

#include <boost/describe/class.hpp>
#include <boost/describe/enum.hpp>

#include "libs/formats/json.h"

namespace hw::terminal {
namespace {

// The case as its JSON has it; the names of the members are those of the fields.
struct CaseDay {
  LocalDate date;
  double used = 0;
  std::optional<int> days;
};
BOOST_DESCRIBE_STRUCT(CaseDay, (), (date, used, days))

struct CaseShifts {
  LocalDate from;
  std::optional<double> factor;
  std::optional<std::array<double, 7>> weekdays;
};
BOOST_DESCRIBE_STRUCT(CaseShifts, (), (from, factor, weekdays))

struct CaseAlike {
  double per_day = 0;
  double spread = 0;
  std::optional<std::array<double, 7>> weekdays;
};
BOOST_DESCRIBE_STRUCT(CaseAlike, (), (per_day, spread, weekdays))

enum class CaseUnit { any, h };
BOOST_DESCRIBE_ENUM(CaseUnit, any, h)

struct Case {
  boost::json::value id;
  LocalDate start;
  std::vector<CaseDay> history;
  double left = 0;
  std::optional<std::vector<LocalDate>> closed;
  std::optional<CaseUnit> unit;
  std::optional<CaseShifts> shifts;
  std::optional<CaseAlike> alike;
};
BOOST_DESCRIBE_STRUCT(Case, (), (id, start, history, left, closed, unit, shifts, alike))

Result<void> check_weekdays(const std::optional<std::array<double, 7>>& weekdays, std::string_view field) {
  double sum = 0;
  for (const double share : weekdays.value_or(std::array<double, 7>{1, 1, 1, 1, 1, 1, 1})) {
    if (!(share >= 0 && share <= 100)) {
      return refuse(ErrorCode::bad_input, "{}.weekdays: seven numbers from 0 to 100, not {}", field, share);
    }
    sum += share;
  }
  if (sum <= 0) return refuse(ErrorCode::bad_input, "{}.weekdays: at least one must be above 0", field);
  return {};
}

Result<due::ShiftChange> change_of(const CaseShifts& shifts) {
  HW_TRY(check_weekdays(shifts.weekdays, "shifts"));
  const double factor = shifts.factor.value_or(1);
  if (!(factor >= 0 && factor <= 100)) {
    return refuse(ErrorCode::bad_input, "shifts.factor: a number from 0 to 100, not {}", factor);
  }
  return due::ShiftChange{shifts.from, factor, shifts.weekdays};
}

Result<due::LentUse> lent_of(const CaseAlike& alike) {
  HW_TRY(check_weekdays(alike.weekdays, "alike"));
  if (!(alike.per_day > 0 && alike.per_day <= 1e15)) {
    return refuse(ErrorCode::bad_input, "alike.per_day: a number above 0, not {}", alike.per_day);
  }
  if (!(alike.spread >= 0.01 * alike.per_day && alike.spread <= 10 * alike.per_day)) {
    return refuse(ErrorCode::bad_input, "alike.spread: from a hundredth to ten times per_day, not {}", alike.spread);
  }
  due::LentUse lent{alike.per_day, alike.spread};
  if (!alike.weekdays) return lent;
  double sum = 0;
  for (const double share : *alike.weekdays) sum += share;
  for (std::size_t day = 0; day < 7; ++day) lent.shares[day] = (*alike.weekdays)[day] * 7 / sum;
  return lent;
}

// The id of a line that is no case, so that its refusal can be told apart; null where none can be read.
boost::json::value id_within(std::string_view line) {
  const std::size_t key = line.find("\"id\"");
  if (key == std::string_view::npos) return nullptr;
  const std::size_t begin = line.find_first_not_of(" \t:", key + 4);
  if (begin == std::string_view::npos) return nullptr;
  const std::size_t end = line[begin] == '"' ? line.find('"', begin + 1) + 1 : line.find_first_of(",} \t", begin);
  const auto id = formats::parse_json_tree(line.substr(begin, end - begin));
  return id ? *id : boost::json::value(nullptr);
}

// A line that is no JSON is "line 1, column 7" to the reader of JSON.
std::string at_line(const std::string& message, std::uint64_t line_number) {
  const std::string within = "line 1, ";
  if (message.starts_with(within)) return fmt::format("line {}, {}", line_number, message.substr(within.size()));
  return fmt::format("line {}: {}", line_number, message);
}

std::string day_text(const std::optional<LocalDate>& day) { return day ? print(*day) : "never"; }

}  // namespace

Result<DueCase> parse_due_case(std::string_view line) {
  HW_TAKE(parsed, formats::parse_json<Case>(line));
  DueCase one{parsed.id, {parsed.start, {}, parsed.closed.value_or(std::vector<LocalDate>{})}, {}, parsed.left};
  for (const CaseDay& day : parsed.history) one.history.days.push_back({day.date, day.used, day.days.value_or(1)});
  if (parsed.unit == CaseUnit::h) one.history.unit = due::UseUnit::hours;
  if (parsed.shifts) {
    HW_TAKE(change, change_of(*parsed.shifts));
    one.options.changes = {change};
  }
  if (parsed.alike) {
    HW_TAKE(lent, lent_of(*parsed.alike));
    one.options.lent = lent;
  }
  return one;
}

DueAnswer answer_due(std::string_view line, std::uint64_t line_number) {
  const auto parsed = parse_due_case(line);
  if (!parsed) {
    return {id_within(line), {}, "", at_line(parsed.error().message, line_number), false};
  }
  const auto forecast = due::UseForecast::prepare(parsed->history, parsed->options);
  if (!forecast) return {parsed->id, {}, "", at_line(forecast.error().message, line_number)};
  return {parsed->id, forecast->due_days(parsed->left), forecast->basis(), ""};
}

std::string print_due_json(const DueAnswer& answer) {
  std::string text = "{\"id\":" + formats::print_json(answer.id);
  if (!answer.refused.empty()) return text + ",\"refused\":" + formats::print_json(answer.refused) + "}\n";
  text += ",\"quantiles\":{";
  for (std::size_t n = 0; n < answer.days.size(); ++n) {
    text += fmt::format("{}\"{}\":{}", n > 0 ? "," : "", due::shown_chances[n], formats::print_json(answer.days[n]));
  }
  return text + "},\"basis\":" + formats::print_json(answer.basis) + "}\n";
}

std::string print_due_heading() {
  std::string text = fmt::format("{:<16}", "due by, with");
  for (const double chance : due::shown_chances) text += fmt::format("{:>12}", fmt::format("{:.0f} %", 100 * chance));
  return text + "\n";
}

std::string print_due_table(const DueAnswer& answer) {
  const auto* word = answer.id.if_string();
  std::string text = fmt::format("{:<16}", word != nullptr ? std::string(*word) : formats::print_json(answer.id));
  if (!answer.refused.empty()) return text + "  refused: " + answer.refused + "\n";
  for (const auto& day : answer.days) text += fmt::format("{:>12}", day_text(day));
  return text + "\n                  " + answer.basis + "\n";
}

}  // namespace hw::terminal
