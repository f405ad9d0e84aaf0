// What no forecast can carry is refused with its day or field, and what is merely odd is answered by dates in order:
// never by no number, never by a range that the history cannot carry. Asked as the command `due` is asked.

#include <limits>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/terminal/due_case.h"

namespace hw::tests {
namespace {

using testing::HasSubstr;

const LocalDate first_future = LocalDate::of(2026, 3, 2);

std::string day_text(int ago, const std::string& used) {
  return fmt::format(R"({{"date":"{}","used":{}}})", print(first_future - ago), used);
}

std::string days_of(int count, const std::string& used, int last_ago = 1) {
  std::string text;
  for (int ago = last_ago + count - 1; ago >= last_ago; --ago) text += (text.empty() ? "" : ",") + day_text(ago, used);
  return text;
}

terminal::DueAnswer ask(const std::string& history, const std::string& left, const std::string& more = "") {
  return terminal::answer_due(
      fmt::format(R"({{"id":1,"start":"2026-03-02","unit":"h","history":[{}],"left":{}{}}})", history, left, more), 1);
}

struct Refused {
  const char* what;
  std::string history, left, says;
};

TEST(BadInput, IsRefusedWithWhatIsWrong) {
  const std::string good = days_of(14, "8");
  const std::vector<Refused> cases = {
      {"a day twice", good + "," + day_text(3, "8"), "40", "2026-02-27 stands there twice"},
      {"the start itself", good + "," + day_text(0, "8"), "40", "2026-03-02: the day is not before the start"},
      {"a day of the future", good + "," + day_text(-30, "8"), "40", "2026-04-01: the day is not before the start"},
      {"use below nothing", good + "," + day_text(20, "-0.5"), "40", "2026-02-10: use must be a number from 0"},
      {"more hours than a day has", good + "," + day_text(20, "25.2"), "40", "a day has at most 25 h, not 25.2"},
      {"a day that the calendar lacks", R"({"date":"2026-02-30","used":8},)" + good, "40", "2026-02-30"},
      {"use that is no number", good + "," + day_text(20, "NaN"), "40", "line 1, column"},
      {"use without an end", good + "," + day_text(20, "1e999"), "40", "line 1"},
      {"no day", "", "40", "0 open days with a record carry no range"},
      {"one day", day_text(5, "8"), "40", "1 open days with a record carry no range"},
      {"left that is no number", good, "NaN", "line 1, column"},
      {"left that is null", good, "null", "left"},
      {"left that is text", good, R"("40")", "left"},
      {"left without an end", good, "1e999", "line 1"},
  };
  for (const Refused& one : cases) {
    const terminal::DueAnswer answer = ask(one.history, one.left);
    EXPECT_THAT(answer.refused, HasSubstr(one.says)) << one.what;
    EXPECT_THAT(print_due_json(answer), testing::StartsWith(R"({"id":1,"refused":")")) << one.what;
  }
}

TEST(BadInput, EveryKnownDayClosedIsTooLittle) {
  const std::string closed = R"(,"closed":["2026-02-28","2026-03-01"])";
  EXPECT_THAT(ask(days_of(2, "0"), "40", closed).refused, HasSubstr("0 open days with a record"));
}

void expect_all(const terminal::DueAnswer& answer, std::optional<LocalDate> day) {
  EXPECT_EQ(answer.refused, "");
  for (const auto& one : answer.days) EXPECT_EQ(one, day);
}

TEST(BadInput, WhatIsOddIsAnsweredAsDocumented) {
  expect_all(ask(days_of(60, "0"), "1"), std::nullopt);       // never used: never due by use
  expect_all(ask(days_of(60, "8"), "0"), first_future);       // nothing left: due at the start
  expect_all(ask(days_of(60, "8"), "-120.5"), first_future);  // overdue: the same
  expect_all(ask(days_of(60, "8"), "1e14"), std::nullopt);    // beyond ten years
  std::string every_day;
  for (int day = 0; day < due::horizon_days; ++day) {
    every_day += fmt::format(R"({}"{}")", day == 0 ? "" : ",", print(first_future + day));
  }
  expect_all(ask(days_of(60, "8"), "1", R"(,"closed":[)" + every_day + "]"), std::nullopt);
}

int width_of(const terminal::DueAnswer& answer) {
  EXPECT_EQ(answer.refused, "");
  return *answer.days[5] - *answer.days[1];
}

TEST(BadInput, AGapOfAYearAndTwoDaysOnlyMakeItLessSure) {
  const std::string recent = days_of(60, "8"), with_gap = days_of(60, "8", 366) + "," + days_of(3, "8");
  const int sure = width_of(ask(recent, "400"));
  EXPECT_GE(width_of(ask(days_of(60, "8", 366), "400")), sure);  // nothing is known of the last year
  EXPECT_GE(width_of(ask(with_gap, "400")), 1);
  EXPECT_GT(width_of(ask(days_of(2, "8"), "400")), 3 * sure);
}

// A history of almost anything that may be: tiny and huge amounts, holes, nothing for months, a single burst.
std::string odd_history(numerics::Random& random) {
  std::string text;
  const double scale = random.log_between(1e-9, 1e12), known = random.between(0.02, 1), works = random.uniform();
  const int days = random.whole_between(2, 900), burst = random.whole_between(0, 900);
  for (int ago = days; ago >= 1; --ago) {
    if (ago > 2 && !random.chance(known)) continue;
    const double used = ago == burst ? 1e3 * scale : random.chance(works) ? scale * random.gamma(0.5) : 0;
    text += (text.empty() ? "" : ",") + day_text(ago, fmt::format("{:.17g}", used));
  }
  return text;
}

TEST(BadInput, Property_AnyHistoryIsAnsweredByDatesInOrderThatNeverComeEarlierForMoreLeft) {
  numerics::Random random(20261126);
  for (int n = 0; n < 150; ++n) {
    const std::string history = odd_history(random);
    due::DueQuantiles before{};
    before.fill(first_future);
    double left = random.log_between(1e-9, 1e3);
    for (int step = 0; step < 5; ++step, left *= random.log_between(2, 1e4)) {
      const auto answer = terminal::answer_due(
          fmt::format(R"({{"id":{},"start":"2026-03-02","history":[{}],"left":{:.17g}}})", n, history, left), 1);
      ASSERT_EQ(answer.refused, "") << n;
      EXPECT_THAT(answer.basis, testing::Not(testing::AnyOf(HasSubstr("nan"), HasSubstr("inf")))) << n;
      for (std::size_t p = 0; p < answer.days.size(); ++p) {
        const LocalDate day = answer.days[p].value_or(first_future + 10'000);
        EXPECT_GE(day, before[p].value_or(first_future + 10'000)) << n << " left " << left;
        if (p > 0) {
          EXPECT_GE(day, answer.days[p - 1].value_or(first_future + 10'000)) << n << " left " << left;
        }
      }
      before = answer.days;
    }
  }
}

}  // namespace
}  // namespace hw::tests
