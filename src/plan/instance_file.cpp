#include "src/plan/instance_file.h"

#include "libs/formats/json.h"

namespace hw::plan {
namespace {

constexpr formats::JsonLimits instance_limits{.bytes_max = instance_bytes_max};

template <class Element>
void print_lines(std::string& text, const std::vector<Element>& elements) {
  const char* before = "\n";
  for (const Element& element : elements) {
    text += before + formats::print_json(element);
    before = ",\n";
  }
}

}  // namespace

Result<Instance> parse_instance(std::string_view text) {
  HW_TAKE(instance, formats::parse_json<Instance>(text, instance_limits));
  HW_TRY(check_instance(instance));
  return std::move(instance);
}

Result<StopPlan> parse_plan(std::string_view text) { return formats::parse_json<StopPlan>(text, instance_limits); }

std::string print_plan(const StopPlan& plan) {
  std::string text =
      fmt::format("{{\"format\":{},\"instance\":{},\"claimed_cost\":{},\"claimed_bound\":{},\n\"stops\":[",
                  formats::print_json(plan.format), formats::print_json(plan.instance),
                  formats::print_json(plan.claimed_cost), formats::print_json(plan.claimed_bound));
  print_lines(text, plan.stops);
  text += "],\n\"running_jobs\":[";
  print_lines(text, plan.running_jobs);
  return text + "]}\n";
}

}  // namespace hw::plan
