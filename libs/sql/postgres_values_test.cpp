#include "libs/sql/postgres_values.h"

#include <gtest/gtest.h>

namespace hw::sql {
namespace {

TEST(PostgresValues, NumbersAreInNetworkOrder) {
  EXPECT_EQ(argument_of(std::int64_t{258}).bytes, std::string("\0\0\0\0\0\0\1\2", 8));
  EXPECT_EQ(argument_of(1.0).bytes, std::string("\x3f\xf0\0\0\0\0\0\0", 8));
  EXPECT_EQ(std::get<std::int64_t>(value_of(PostgresType::medium, std::string("\xff\xff\xff\xfe", 4))), -2);
  EXPECT_EQ(std::get<std::int64_t>(value_of(PostgresType::small, std::string("\xff\xfd", 2))), -3);
  EXPECT_EQ(std::get<double>(value_of(PostgresType::single_real, std::string("\x3f\x80\0\0", 4))), 1.0);
}

TEST(PostgresValues, WhatIsNotThereHasNoType) {
  const PostgresArgument argument = argument_of(std::monostate());
  EXPECT_TRUE(argument.is_null);
  EXPECT_EQ(argument.type, PostgresType::unknown);
}

TEST(PostgresValues, AnUnknownTypeIsOurOwnMistake) {
  EXPECT_DEATH((void)value_of(static_cast<PostgresType>(600), ""), "type 600");
}

}  // namespace
}  // namespace hw::sql
