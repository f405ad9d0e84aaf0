#include "src/service/model_text.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

TEST(ModelText, AModelComesBackWithEveryRoleAndField) {
  counters::MachineModel model{"d1", "lathe \"1\"", "uuid", {}};
  for (int role = 0; role <= static_cast<int>(counters::Role::count); ++role) {
    counters::Item item;
    item.id = "i" + std::to_string(role);
    item.name = "Ü";
    item.source = "s";
    item.category = "SAMPLE";
    item.type = "x:MOTION";
    item.sub_type = "ACTUAL";
    item.units = "MILLIMETER/SECOND";
    item.native_units = "INCH/MINUTE";
    item.representation = "TIME_SERIES";
    item.coordinate_system = "MACHINE";
    item.component = "Linear";
    item.component_id = "x";
    item.component_name = "X";
    item.native_to_units = 25.4 / 60;
    item.has_reset_trigger = true;
    item.role = static_cast<counters::Role>(role);
    model.items.push_back(item);
  }
  const auto read = parse_model(print_model(model));
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(*read, model);
}

TEST(ModelText, WhatIsNoModelIsRefused) {
  for (const char* text : {"", "{}", "[]", R"({"id":"","name":"","uuid":"","items":[{}]})"}) {
    EXPECT_FALSE(parse_model(text)) << text;
  }
}

}  // namespace
}  // namespace hw::service
