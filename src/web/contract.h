#pragma once
// api/openapi.yaml as other programs want it, and its routes for the test that compares them with the router's.

#include <string>
#include <string_view>

#include "libs/values/result.h"

namespace hw::web {

// The same document as JSON. Plain scalars become null, booleans and numbers where YAML's core schema says so. Refuses
// (bad_input) what is no YAML, with line and column.
Result<std::string> json_of_yaml(std::string_view yaml);

}  // namespace hw::web
