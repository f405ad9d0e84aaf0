#pragma once
// A shop with rounds, and people who walk them with a telephone.

#include "tests/shop/scene.h"

namespace hw::shop {

// The round of each shift is, in walking order: "look" (look), "window" (clean), "coolant" (top up, in l), "air/supply
// air" (reading in bar: warning outside 5.5 to 6.5, action outside 5 to 7). Before start-up: "start" (look). Each week:
// "week/pH" (reading in pH, no limits).
extern const MoreTasks round_tasks;

// All of the shift's checks.
extern const std::vector<std::string> shift_checks;

service::CheckAnswer good(std::string check, std::string kind = "look");
service::CheckAnswer bad(std::string check, std::string kind = "look");
service::CheckAnswer read(std::string check, double value, std::string unit = "bar");

// A person at a machine.
struct Walker {
  Scene& scene;
  std::string by = "Ada";
  std::string machine = "mill1";
  std::string rhythm = "shift";
  Duration clock_off = {};  // how far the telephone's clock is ahead
  Duration ago = {};        // how long before the sending it was entered

  service::Signature sign(int id) const;
  Result<service::EntryView> begin(int id, std::vector<std::string> checks = shift_checks) const;
  Result<service::EntryView> answer(int id, int walk, service::CheckAnswer answer) const;
  Result<service::EntryView> others(int id, int walk, std::vector<service::CheckAnswer> answers) const;
};

service::RoundView round_of(const Scene& scene, std::string_view rhythm = "shift", std::string machine = "mill1");
// Of the turn that runs the latest answer of each check: "air/supply air 5.2 bar", "look not so".
std::vector<std::string> answers_now(const Scene& scene, std::string_view rhythm = "shift");
// "2026-03-02 early missed" each, the latest first.
std::vector<std::string> past(const Scene& scene, std::string_view rhythm = "shift");

}  // namespace hw::shop
