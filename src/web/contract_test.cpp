#include "src/web/contract.h"

#include <gtest/gtest.h>

namespace hw::web {
namespace {

TEST(JsonOfYaml, ScalarsBecomeWhatTheCoreSchemaSays) {
  const auto json = json_of_yaml("a: 1\nb: -2.5\nc: true\nd: \"200\"\ne: word\nf: ~\ng:\nh: '~'\n");
  ASSERT_TRUE(json) << json.error().message;
  EXPECT_EQ(*json, R"({"a":1,"b":-2.5E0,"c":true,"d":"200","e":"word","f":null,"g":null,"h":"~"})");
}

TEST(JsonOfYaml, ListsMapsAndFoldedTextsKeepTheirOrder) {
  EXPECT_EQ(*json_of_yaml("b: [ x, { k: v } ]\na: >\n  one\n  two\n"), R"({"b":["x",{"k":"v"}],"a":"one two\n"})");
}

TEST(JsonOfYaml, ANumberThatIsNoneStaysAText) {
  EXPECT_EQ(*json_of_yaml("a: 1.2.3\nb: 2026-03-02\nc: 12 months\n"),
            R"({"a":"1.2.3","b":"2026-03-02","c":"12 months"})");
}

TEST(JsonOfYaml, WhatIsNoYamlIsRefusedWithItsLine) {
  const auto json = json_of_yaml("a: 1\nb: [1, 2\n");
  ASSERT_FALSE(json);
  EXPECT_EQ(json.error().code, ErrorCode::bad_input);
  EXPECT_NE(json.error().message.find("line "), std::string::npos) << json.error().message;
}

}  // namespace
}  // namespace hw::web
