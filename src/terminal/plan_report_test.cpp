#include "src/terminal/plan_report.h"

#include <gmock/gmock.h>

namespace hw::terminal {
namespace {

TEST(PlanReport, SaysWhatAPlanSavesBesideEachRule) {
  PlanReport report{.cost = 75, .bound = 60, .gap = 0.2, .seconds = 3, .stops = 4, .travel = {}, .rules = {}};
  report.rules.due_day.emplace(100);
  const std::string table = print_table(report);
  EXPECT_THAT(table, testing::HasSubstr("cost 75.00, and no plan costs less than 60.00 (gap 20.00 %), 4 stops"));
  EXPECT_THAT(table, testing::Not(testing::HasSubstr("travel")));
  EXPECT_THAT(table, testing::HasSubstr("the plan saves 25.0 %"));
  EXPECT_THAT(table, testing::HasSubstr("finds no place for every task"));
  EXPECT_EQ(print_json(report), R"({"cost":75,"bound":60,"gap":0.2,"seconds":3,"stops":4,)"
                                R"("rules":{"due_day":100,"with_next_14_days":null,"monthly_service":null}})"
                                "\n");
}

TEST(PlanReport, SaysWhatTravelCosts) {
  const PlanReport report{.cost = 75, .bound = 60, .gap = 0.2, .seconds = 3, .stops = 4, .travel = 12.5, .rules = {}};
  EXPECT_THAT(print_table(report), testing::HasSubstr("of it for crews' travel 12.50"));
  EXPECT_THAT(print_json(report), testing::HasSubstr("\"travel\":12.5"));
}

}  // namespace
}  // namespace hw::terminal
