#pragma once
// The usual steps before hands go into a machine and the way back, as one table for pages and sheets, in English and
// German. The order of the steps is that of 29 CFR 1910.147 (d)(1) to (6), of the way back that of (e)(1) to (3); the
// words are ours (docs/methods/isolation.md). They are a reminder beside the builder's manual, local codes and licensed
// trades, which go before them, and never say that a machine is safe.

#include <span>
#include <string_view>

namespace hw::catalogue {

struct IsolationStep {
  std::string_view code;  // "shut-down"; apart from the others of its table
  std::string_view text;
  std::string_view text_de;
};

enum class CautionScope { every_stop, isolated_stop };  // isolated: where a task is done locked out

struct IsolationCaution {
  std::string_view text;
  std::string_view text_de;
  CautionScope scope = CautionScope::every_stop;
};

// Six: prepare, shut-down, isolate, lock, release, verify.
std::span<const IsolationStep> isolation_steps();
// Four, after the work: tools-out, people-clear, locks-off, tell-people.
std::span<const IsolationStep> way_back_steps();
// What stands above every sheet or page that shows the steps.
std::span<const IsolationCaution> isolation_cautions();

}  // namespace hw::catalogue
