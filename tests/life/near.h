#pragma once
// How near a computed value has to be to a published one.

#include <string>

#include "tests/published/published_cases.h"

namespace hw::tests {

// Relative to the published value; absolute where that is 0.
void expect_near(double computed, const value& published, double relative, const std::string& what);

}  // namespace hw::tests
