#include "tests/condition/alike.h"

#include <cmath>

#include <gtest/gtest.h>

namespace hw::tests {
namespace {

void expect_near(double actual, double expected, const Tolerance& tolerance, const std::string& place) {
  const double size = tolerance.kind == ToleranceKind::absolute ? tolerance.size : tolerance.size * std::abs(expected);
  EXPECT_NEAR(actual, expected, size) << place;
}

}  // namespace

void expect_alike(const value& actual, const value& expected, const Tolerance& tolerance, const std::string& place) {
  if (expected.is_number()) {
    ASSERT_TRUE(actual.is_number()) << place << ": " << boost::json::serialize(actual);
    expect_near(number(actual), number(expected), tolerance, place);
  } else if (const auto* object = expected.if_object()) {
    for (const auto& [key, one] : *object) {
      const value* found = actual.is_object() ? actual.as_object().if_contains(key) : nullptr;
      ASSERT_NE(found, nullptr) << place << "." << key << " is missing";
      expect_alike(*found, one, tolerance, place + "." + std::string(key));
    }
  } else if (const auto* list = expected.if_array()) {
    ASSERT_TRUE(actual.is_array()) << place;
    ASSERT_EQ(actual.as_array().size(), list->size()) << place;
    for (std::size_t n = 0; n < list->size(); ++n) {
      expect_alike(actual.at(n), list->at(n), tolerance, place + "[" + std::to_string(n) + "]");
    }
  } else {
    EXPECT_EQ(actual, expected) << place;
  }
}

}  // namespace hw::tests
