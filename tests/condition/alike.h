#pragma once
// Whether what was computed is alike a published answer, field by field.

#include <string>

#include <boost/json.hpp>

#include "tests/published/published_cases.h"

namespace hw::tests {

enum class ToleranceKind { absolute, relative };
struct Tolerance {
  ToleranceKind kind;
  double size;
};

// Every number, text and null of `expected` stands in `actual` at the same place, within the tolerance; `actual` may
// have more. Failures name the place.
void expect_alike(const value& actual, const value& expected, const Tolerance& tolerance, const std::string& place);

}  // namespace hw::tests
