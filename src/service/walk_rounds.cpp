#include <algorithm>
#include <set>

#include "src/service/entry_making.h"
#include "src/service/make_views.h"
#include "src/service/round_entries.h"
#include "src/service/round_standing.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

using catalogue::Rhythm;

// The round of that machine and rhythm, as somebody names it.
struct RoundPlace {
  std::string_view machine;
  Rhythm rhythm;
};

Result<Rhythm> rhythm_of(std::string_view word) {
  const auto rhythm = catalogue::parse_rhythm(word);
  if (!rhythm) return refuse(rhythm.error().at("rhythm"));
  return *rhythm;
}

OpenMachine* find_machine(const OpenShop& shop, std::string_view key) {
  const auto found = shop.find(key);
  return found ? *found : nullptr;
}

// The walk's entry; stray where the machine has no such round (any more).
Result<Entry> begun_entry(const OpenShop& shop, const RoundPlace& place, const WalkEdit& edit, Instant now) {
  const auto lock = shop.look();
  HW_TAKE(entry, new_or_stray_entry(shop, place.machine, begun_kind, edit, now));
  tell_begun(entry, find_machine(shop, place.machine), place.rhythm, edit);
  return std::move(entry);
}

Result<Entry> answers_entry(const OpenShop& shop, const RoundPlace& place, const AnswersEdit& edit, Instant now) {
  const auto lock = shop.look();
  HW_TAKE(entry, new_or_stray_entry(shop, place.machine, kind_of(edit), edit, now));
  HW_TRY(tell_answers(entry, find_machine(shop, place.machine), place.rhythm, edit));
  return std::move(entry);
}

// Takes over from the store what the walk is now; walks that are too old to be shown are let go.
Result<void> reload_walk(OpenShop& shop, OpenMachine& machine, const std::string& walk, Instant now) {
  HW_TAKE(stored, shop.store().walk(machine.record.machine.key, walk));
  const auto lock = shop.change();
  std::erase_if(machine.walks, [&](const WalkRecord& one) {
    return one.walk == walk || (one.begun_at < now - walks_kept && one.begun_at < stored->begun_at);
  });
  machine.walks.push_back(std::move(*stored));
  ++machine.tasks_version;
  return {};
}

std::vector<std::string> tasks_of(const Entry& entry) {
  std::set<std::string> tasks;
  for (const GivenAnswer& one : entry.body.answers.value_or(std::vector<GivenAnswer>{})) {
    if (one.task) tasks.insert(*one.task);
  }
  return {tasks.begin(), tasks.end()};
}

// Keeps the entry, then takes over into memory what follows from it.
Result<EntryView> keep_on_walk(OpenShop& shop, Entry& entry, const std::string& walk, Instant now) {
  HW_TRY(keep(shop.store(), entry));
  OpenMachine* machine = find_machine(shop, entry.machine);
  if (!machine) return view_of(entry);
  HW_TRY(reload_walk(shop, *machine, walk, now));
  HW_TRY(reload_last_done(shop, entry.machine, tasks_of(entry)));
  return view_of(entry);
}

}  // namespace

Result<EntryView> begin_walk(OpenShop& shop, std::string_view machine, std::string_view rhythm, const WalkEdit& edit,
                             Instant now) {
  HW_TRY(check(edit));
  HW_TAKE(which, rhythm_of(rhythm));
  const auto turn = shop.edit();
  HW_TAKE(before, repeated(shop, edit.id, {begun_kind, machine}));
  if (before) return view_of(*before);
  HW_TAKE(entry, begun_entry(shop, {machine, which}, edit, now));
  return keep_on_walk(shop, entry, edit.id, now);
}

Result<EntryView> answer_checks(OpenShop& shop, std::string_view machine, std::string_view rhythm,
                                const AnswersEdit& edit, Instant now) {
  HW_TRY(check(edit));
  HW_TAKE(which, rhythm_of(rhythm));
  const auto turn = shop.edit();
  HW_TAKE(before, repeated(shop, edit.id, {kind_of(edit), machine}));
  if (before && before->body.walk == edit.walk) return view_of(*before);
  if (before) return refuse(ErrorCode::conflict, "id: {} answered on another walk; an id is used once", edit.id);
  HW_TAKE(entry, answers_entry(shop, {machine, which}, edit, now));
  return keep_on_walk(shop, entry, edit.walk, now);
}

}  // namespace hw::service
