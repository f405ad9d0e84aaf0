#include "src/service/plant_visits.h"

#include <gtest/gtest.h>

#include "libs/formats/json.h"

namespace hw::service {
namespace {

// How stops are gathered into them: tests/shop/visits_test.cpp.
TEST(PlantVisits, ArePrintedInTheFieldsOfTheContract) {
  const Instant begins_at = *parse_instant("2026-03-04T05:00:00Z");
  const GroupVisitView visit{LocalDate::of(2026, 3, 4),
                             "early",
                             begins_at,
                             begins_at + Duration::hours(8),
                             {{"s1", "Mill 1"}},
                             2.5,
                             1,
                             240,
                             "EUR"};
  EXPECT_EQ(formats::print_json(visit),
            R"({"on":"2026-03-04","shift":"early","begins_at":"2026-03-04T05:00:00Z","ends_at":"2026-03-04T13:00:00Z",)"
            R"("stops":[{"stop":"s1","machine":"Mill 1"}],"work_h":2.5,"way_h":1,"way_cost":240,"currency":"EUR"})");
}

}  // namespace
}  // namespace hw::service
