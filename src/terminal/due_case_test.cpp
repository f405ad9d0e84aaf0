#include "src/terminal/due_case.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace hw::terminal {
namespace {

using testing::HasSubstr;

std::string case_with(const std::string& fields) { return R"({"id":"a","start":"2026-03-02",)" + fields + "}"; }
const std::string days = R"("history":[{"date":"2026-02-23","used":8},{"date":"2026-02-24","used":8},)"
                         R"({"date":"2026-02-25","used":8}])";

TEST(DueCase, IsAnsweredWithSevenDaysAndItsBasis) {
  const DueAnswer answer = answer_due(case_with(days + R"(,"closed":[],"left":40.0)"), 1);
  EXPECT_EQ(answer.refused, "");
  const std::string json = print_due_json(answer);
  EXPECT_THAT(json, testing::StartsWith(R"({"id":"a","quantiles":{"0.05":"2026-03-)"));
  EXPECT_THAT(json, HasSubstr(R"("basis":"3 days of use from 2026-02-23)"));
}

TEST(DueCase, KeepsTheIdAsItIs) {
  for (const std::string id : {"7", "\"x-1\"", "null", "1.5"}) {
    EXPECT_THAT(print_due_json(answer_due("{\"id\":" + id + ",\"start\":\"2026-03-02\"," + days + ",\"left\":1}", 1)),
                testing::StartsWith("{\"id\":" + id + ","));
  }
}

TEST(DueCase, WhatIsNoCaseIsRefusedWithLineAndField) {
  const DueAnswer unknown = answer_due(case_with(days + R"(,"left":1,"speed":3)"), 12);
  EXPECT_FALSE(unknown.is_a_case);
  EXPECT_THAT(unknown.refused, HasSubstr("line 12: speed: no such field"));
  EXPECT_EQ(unknown.id, "a");
  const DueAnswer no_number = answer_due(case_with(days + R"(,"left":NaN)"), 3);
  EXPECT_THAT(no_number.refused, HasSubstr("line 3, column"));
  EXPECT_EQ(no_number.id, "a");
  EXPECT_THAT(answer_due(case_with(days), 4).refused, HasSubstr("line 4: left: is missing"));
  EXPECT_FALSE(answer_due("nonsense", 1).is_a_case);
}

TEST(DueCase, WhatCannotBeAnsweredIsACaseThatIsRefused) {
  const DueAnswer one_day = answer_due(case_with(R"("history":[{"date":"2026-02-23","used":8}],"left":1)"), 2);
  EXPECT_TRUE(one_day.is_a_case);
  EXPECT_THAT(print_due_json(one_day), HasSubstr(R"({"id":"a","refused":"line 2: history: 1 open days)"));
  EXPECT_THAT(answer_due(case_with(R"("history":[{"date":"2026-03-02","used":8}],"left":1)"), 1).refused,
              HasSubstr("not before the start"));
}

TEST(DueCase, WhatIsNeverReachedIsNull) {
  const std::string idle = R"("history":[{"date":"2026-02-23","used":0},{"date":"2026-02-24","used":0}],"left":1)";
  EXPECT_THAT(print_due_json(answer_due(case_with(idle), 1)), HasSubstr(R"("0.05":null,"0.1":null)"));
  EXPECT_THAT(print_due_table(answer_due(case_with(idle), 1)), HasSubstr("never"));
}

TEST(DueCase, UseOfSeveralDaysIsKnownTogether) {
  const std::string read = R"("history":[{"date":"2026-02-10","used":40,"days":7},)"
                           R"({"date":"2026-02-24","used":80,"days":14}],"left":40)";
  EXPECT_THAT(print_due_json(answer_due(case_with(read), 1)), HasSubstr("21 days of use from 2026-02-04"));
  const std::string lapping = R"("history":[{"date":"2026-02-20","used":40,"days":7},)"
                              R"({"date":"2026-02-24","used":80,"days":14}],"left":40)";
  EXPECT_THAT(answer_due(case_with(lapping), 1).refused, HasSubstr("2026-02-11 stands there twice"));
}

TEST(DueCase, ShiftsAndLikeMachinesAreChecked) {
  const auto refusal = [](const std::string& field) {
    return answer_due(case_with(days + ",\"left\":1," + field), 1).refused;
  };
  EXPECT_THAT(refusal(R"("shifts":{"from":"2026-04-01","factor":-1})"), HasSubstr("shifts.factor"));
  EXPECT_THAT(refusal(R"("shifts":{"from":"2026-04-01","weekdays":[0,0,0,0,0,0,0]})"), HasSubstr("shifts.weekdays"));
  EXPECT_THAT(refusal(R"("alike":{"per_day":0,"spread":1})"), HasSubstr("alike.per_day"));
  EXPECT_THAT(refusal(R"("unit":"km")"), HasSubstr("unit: must be one of"));
  EXPECT_EQ(refusal(R"("unit":"h","shifts":{"from":"2026-04-01","factor":2},"alike":{"per_day":8,"spread":1})"), "");
}

}  // namespace
}  // namespace hw::terminal
