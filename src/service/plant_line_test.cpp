#include "src/service/plant_line.h"

#include <gtest/gtest.h>

#include "libs/formats/json.h"

namespace hw::service {
namespace {

TEST(PlantLine, IsPrintedInTheFieldsOfTheContract) {
  PlantLineView line{*parse_instant("2026-03-02T06:00:00Z"), {}, {{LocalDate::of(2026, 3, 2), 3, 45.5}}};
  line.machines.push_back({.key = "l1", .name = "Lathe 1", .kind = "lathe", .doing = "running", .feed = "live"});
  EXPECT_EQ(formats::print_json(line),
            R"({"as_of":"2026-03-02T06:00:00Z","machines":[{"key":"l1","name":"Lathe 1","kind":"lathe",)"
            R"("doing":"running","feed":"live","coming":0,"due":0,"overdue":0,"nearest":null,"findings":[],)"
            R"("next_stop_on":null}],"weeks":[{"week_on":"2026-03-02","tasks":3,"minutes":45.5}],"visits":[]})");
}

}  // namespace
}  // namespace hw::service
