#include "src/counters/machine_model.h"

#include <gtest/gtest.h>

namespace hw::counters {
namespace {

Role role(const char* category, const char* type, const char* sub_type = "", const char* units = "",
          const char* representation = "") {
  Item item;
  item.category = category;
  item.type = type;
  item.sub_type = sub_type;
  item.units = units;
  item.representation = representation;
  return role_of(item);
}

TEST(MachineModel, RolesAreThoseOfTheConventions) {
  EXPECT_EQ(role("EVENT", "AVAILABILITY"), Role::availability);
  EXPECT_EQ(role("EVENT", "POWER_STATE", "LINE"), Role::power_state);
  EXPECT_EQ(role("EVENT", "POWER_STATUS"), Role::power_state);
  EXPECT_EQ(role("EVENT", "EXECUTION"), Role::execution);
  EXPECT_EQ(role("SAMPLE", "ROTARY_VELOCITY", "ACTUAL", "REVOLUTION/MINUTE"), Role::spindle_speed);
  EXPECT_EQ(role("SAMPLE", "SPINDLE_SPEED"), Role::spindle_speed);
  EXPECT_EQ(role("SAMPLE", "PATH_FEEDRATE", "ACTUAL"), Role::path_feed);
  EXPECT_EQ(role("SAMPLE", "PATH_FEEDRATE"), Role::path_feed);
  EXPECT_EQ(role("SAMPLE", "PATH_FEEDRATE", "RAPID"), Role::path_rapid);
  EXPECT_EQ(role("SAMPLE", "AXIS_FEEDRATE", "JOG"), Role::axis_feed);
  EXPECT_EQ(role("SAMPLE", "ANGULAR_VELOCITY"), Role::angular_velocity);
  EXPECT_EQ(role("SAMPLE", "LOAD", "", "PERCENT"), Role::load);
  EXPECT_EQ(role("SAMPLE", "POSITION", "ACTUAL"), Role::position);
  EXPECT_EQ(role("SAMPLE", "EQUIPMENT_TIMER", "WORKING"), Role::own_counter);
  EXPECT_EQ(role("SAMPLE", "ACCUMULATED_TIME", "x:AUTO"), Role::own_counter);
  EXPECT_EQ(role("EVENT", "PART_COUNT", "GOOD"), Role::count);
}

TEST(MachineModel, CommandsOverridesAndConditionsPlayNoPart) {
  for (const char* sub_type : {"COMMANDED", "PROGRAMMED", "OVERRIDE"}) {
    EXPECT_EQ(role("SAMPLE", "ROTARY_VELOCITY", sub_type), Role::none);
    EXPECT_EQ(role("SAMPLE", "PATH_FEEDRATE", sub_type), Role::none);
  }
  EXPECT_EQ(role("SAMPLE", "PATH_FEEDRATE", "", "PERCENT"), Role::none);
  EXPECT_EQ(role("EVENT", "PATH_FEEDRATE_OVERRIDE", "RAPID"), Role::none);
  EXPECT_EQ(role("SAMPLE", "POSITION", "PROBE"), Role::none);
  EXPECT_EQ(role("EVENT", "PART_COUNT", "TARGET"), Role::none);
  EXPECT_EQ(role("CONDITION", "LOAD"), Role::none);
  EXPECT_EQ(role("EVENT", "PROCESS_TIME"), Role::none);
}

TEST(MachineModel, ADataSetIsNotOneValueATimeSeriesIsItsLast) {
  EXPECT_EQ(role("SAMPLE", "ROTARY_VELOCITY", "", "", "DATA_SET"), Role::none);
  EXPECT_EQ(role("SAMPLE", "ROTARY_VELOCITY", "", "", "TIME_SERIES"), Role::spindle_speed);
}

TEST(MachineModel, ALabelIsTheNameUnlessAnotherBearsIt) {
  MachineModel model;
  const auto add = [&](const char* id, const char* name) {
    model.items.emplace_back();
    model.items.back().id = id;
    model.items.back().name = name;
  };
  add("a1", "Srpm");
  add("a2", "load");
  add("a3", "load");
  add("a4", "");
  add("a5", "a4");
  add("a6", "a6");
  EXPECT_EQ(labels_of(model), std::vector<std::string>({"Srpm", "a2", "a3", "a4", "a5", "a6"}));
}

}  // namespace
}  // namespace hw::counters
