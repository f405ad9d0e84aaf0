#include "src/feeds/unit_ratio.h"

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

TEST(UnitRatio, FeedsComeInMinutesAndFeet) {
  EXPECT_DOUBLE_EQ(native_to_units("MILLIMETER/MINUTE", "MILLIMETER/SECOND", 1).value(), 1.0 / 60);
  EXPECT_DOUBLE_EQ(native_to_units("FOOT/MINUTE", "MILLIMETER/SECOND", 1).value(), 304.8 / 60);
  EXPECT_DOUBLE_EQ(native_to_units("INCH/SECOND", "MILLIMETER/SECOND", 1).value(), 25.4);
}

TEST(UnitRatio, TimersComeInMinutesAndHours) {
  EXPECT_DOUBLE_EQ(native_to_units("MINUTE", "SECOND", 1).value(), 60);
  EXPECT_DOUBLE_EQ(native_to_units("HOUR", "SECOND", 1).value(), 3600);
}

TEST(UnitRatio, TurnsAreAngles) {
  EXPECT_DOUBLE_EQ(native_to_units("REVOLUTION/SECOND", "REVOLUTION/MINUTE", 1).value(), 60);
  EXPECT_DOUBLE_EQ(native_to_units("RADIAN/SECOND", "DEGREE/SECOND", 1).value(), 57.29577951308232);
  EXPECT_DOUBLE_EQ(native_to_units("REVOLUTION/MINUTE", "DEGREE/SECOND", 1).value(), 6);
  EXPECT_DOUBLE_EQ(native_to_units("INCH_3D", "MILLIMETER_3D", 1).value(), 25.4);
}

TEST(UnitRatio, NativeScaleDivides) {
  EXPECT_DOUBLE_EQ(native_to_units("MILLIMETER/MINUTE", "MILLIMETER/SECOND", 10).value(), 1.0 / 600);
  EXPECT_DOUBLE_EQ(native_to_units("PERCENT", "PERCENT", 100).value(), 0.01);
  EXPECT_DOUBLE_EQ(native_to_units("", "PERCENT", 0).value(), 1.0);
}

TEST(UnitRatio, WhatDoesNotMeasureTheSameIsNotConverted) {
  EXPECT_FALSE(native_to_units("SECOND", "MILLIMETER", 1).has_value());
  EXPECT_FALSE(native_to_units("FURLONG", "MILLIMETER", 1).has_value());
  EXPECT_FALSE(native_to_units("MILLIMETER", "MILLIMETER/SECOND", 1).has_value());
}

}  // namespace
}  // namespace hw::feeds
