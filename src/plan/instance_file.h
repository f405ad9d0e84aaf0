#pragma once
// Instances and plans as JSON: `hourwright-stops-1` in, `hourwright-stop-plan-1` out and in (docs/methods/plan.md).

#include <string>
#include <string_view>

#include "src/plan/instance.h"
#include "src/plan/stop_plan.h"

namespace hw::plan {

inline constexpr std::size_t instance_bytes_max = std::size_t{400} << 20;

// An instance that check_instance accepts. Errors: bad_input with the field; too_large beyond instance_bytes_max.
Result<Instance> parse_instance(std::string_view text);

// A plan as it stands there; whether it fits an instance is for evaluate_plan to say. Errors: bad_input.
Result<StopPlan> parse_plan(std::string_view text);

// One stop a line.
std::string print_plan(const StopPlan& plan);

}  // namespace hw::plan
