#include "tests/simulation/digest.h"

#include <algorithm>
#include <cmath>

#include "libs/formats/json.h"

namespace hw::simulation {
namespace {

constexpr int all = 100'000;

// Counters to a millionth of their unit: sums of the same hours in another order.
std::string line_of(const service::Entry& entry) {
  std::string line = fmt::format("{} {} {} {} {} {} {} {} {} ", entry.id, entry.kind, entry.machine,
                                 entry.task.value_or("-"), entry.by, print(entry.device_at.value_or(Instant{})),
                                 print(entry.happened_at), entry.says, entry.note.value_or("-"));
  for (const auto& [counter, total] : entry.counters) line += fmt::format("{} {:.6f} ", counter, total);
  return line + formats::print_json(entry.body) + "\n";
}

// The same of the view.
void forget_arrival(std::optional<service::EntryView>& entry) {
  if (!entry) return;
  entry->ordinal = 0;
  entry->at = {};
  entry->undo_until.reset();
  for (auto& [counter, total] : entry->counters) total = std::round(total * 1e6) / 1e6;
}

void forget_arrival(service::TriggerView& trigger) {
  for (auto* amount : {&trigger.used, &trigger.left, &trigger.counter_now, &trigger.counter_then}) {
    if (*amount) **amount = std::round(**amount * 1e6) / 1e6;
  }
  trigger.share_used = std::round(trigger.share_used * 1e6) / 1e6;
}

// The open ones as they are in memory, all as they are stored, and of each photo that they name whether it is there.
std::string findings_of(const shop::Scene& scene) {
  using service::FindingsShown;
  std::string text = formats::print_json(shop::must(show_findings(scene.shop(), {.shown = FindingsShown::open})));
  const auto all_of_them = shop::must(show_findings(scene.shop(), {.shown = FindingsShown::all}));
  text += formats::print_json(all_of_them);
  for (const auto& finding : all_of_them.findings) {
    for (const auto& photo : finding.photos) {
      const auto kept = find_photo(scene.shop(), photo.id);
      text += fmt::format("\n{} {}", photo.id, kept ? kept->sha256 : kept.error().message);
    }
  }
  return text + "\n";
}

}  // namespace

Digest digest_of(const shop::Scene& scene) {
  Digest digest;
  for (const char* machine : {"mill1", "mill2"}) {
    auto entries = shop::must(scene.store().entries_of(machine, all));
    std::sort(entries.begin(), entries.end(), [](const auto& a, const auto& b) { return a.id < b.id; });
    for (const auto& entry : entries) digest.entries += line_of(entry);
    auto tasks = scene.machine(machine).tasks;
    for (auto& task : tasks) {
      forget_arrival(task.last_done);
      for (auto& trigger : task.triggers) forget_arrival(trigger);
    }
    digest.shown += formats::print_json(tasks) + "\n";
  }
  digest.shown += findings_of(scene);
  digest.shown += formats::print_json(shop::must(show_rounds(scene.shop(), std::nullopt, scene.now)));
  return digest;
}

}  // namespace hw::simulation
