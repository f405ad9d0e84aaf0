#include <algorithm>

#include "src/service/entry_making.h"
#include "src/service/finding_entries.h"
#include "src/service/make_views.h"
#include "src/service/open_findings.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

constexpr int settled_shown = 200;

Result<Entry> entry_of_now(const OpenShop& shop, std::string_view machine, std::string_view kind,
                           const Signature& signature, Instant now) {
  const auto lock = shop.look();
  return new_or_stray_entry(shop, machine, kind, signature, now);
}

// Why a task cannot settle a finding of that machine. The caller holds a lock.
Result<void> check_settling_task(const OpenShop& shop, std::string_view machine, const std::string& key) {
  HW_TAKE(open, shop.find(machine));
  HW_TAKE(task, find_task(*open, key));
  if (task->retired_at) {
    return refuse(ErrorCode::conflict, Saying{"task-retired", {{"title", task->task.title}}}, "\"{}\" was retired",
                  task->task.title);
  }
  return {};
}

// A phone may name a task that is gone since it last heard of it: the finding matters more than the link.
void unlink_missing_task(const OpenShop& shop, Entry& entry) {
  auto& task = entry.body.settling_task;
  if (!task) return;
  const auto lock = shop.look();
  const auto there = check_settling_task(shop, entry.machine, *task);
  if (there) return;
  task.reset();
  entry.body.unlinked = there.error().saying;
  entry.says += fmt::format("; without the task that was to settle it: {}", there.error().message);
}

// Entry and what follows from it go to the store together, then the machine's open findings into memory.
Result<Finding> keep_and_reload(OpenShop& shop, Entry& entry) {
  HW_TRY(keep(shop.store(), entry));
  HW_TAKE(finding, shop.store().finding(*entry.body.finding));
  HW_ASSERT(finding, "a finding that was entered is kept");
  HW_TRY(reload_findings(shop, finding->machine));
  return *std::move(finding);
}

Result<Finding> stored_finding(const OpenShop& shop, std::string_view id) {
  HW_TAKE(finding, shop.store().finding(id));
  if (!finding) return refuse(ErrorCode::not_found, Saying{"no-finding"}, "there is no finding {}", id.substr(0, 40));
  return *std::move(finding);
}

// Whether the edit was sent before; refuses an id that was used for another finding.
Result<bool> is_repeated(const OpenShop& shop, std::string_view id, std::string_view kind, const Finding& finding) {
  HW_TAKE(before, repeated(shop, id, {kind, finding.machine}));
  if (!before) return false;
  if (before->body.finding == finding.id) return true;
  return refuse(ErrorCode::conflict, id_used, "id: {} is the id of an entry about another finding; an id is used once",
                id);
}

// What changing, settling and reopening do alike: `tell` gives the entry what it says.
template <class Edit, class Tell>
Result<FindingView> follow_up(OpenShop& shop, const Finding& finding, std::string_view kind, const Edit& edit,
                              const Tell& tell, Instant now) {
  HW_TAKE(is_again, is_repeated(shop, edit.id, kind, finding));
  if (is_again) return view_of(finding);
  HW_TAKE(entry, entry_of_now(shop, finding.machine, kind, edit, now));
  entry.body.stray.reset();  // it is meant for the finding, which is there
  tell(entry, finding, edit);
  HW_TAKE(present, keep_and_reload(shop, entry));
  return view_of(present);
}

}  // namespace

Result<FindingView> make_finding(OpenShop& shop, std::string_view machine, const FindingEdit& edit, Instant now) {
  HW_TRY(check(edit));
  const auto turn = shop.edit();
  HW_TAKE(before, repeated(shop, edit.id, {"finding made", machine}));
  if (before) {
    HW_TAKE(finding, stored_finding(shop, edit.id));
    return view_of(finding);
  }
  HW_TAKE(entry, entry_of_now(shop, machine, "finding made", edit, now));
  tell_made(entry, edit);
  unlink_missing_task(shop, entry);
  HW_TAKE(finding, keep_and_reload(shop, entry));
  return view_of(finding);
}

Result<FindingView> change_finding(OpenShop& shop, std::string_view id, const FindingChange& change, Instant now) {
  HW_TRY(check(change));
  const auto turn = shop.edit();
  HW_TAKE(finding, stored_finding(shop, id));
  HW_TAKE(is_again, is_repeated(shop, change.id, "finding changed", finding));
  if (!is_again && change.task && !change.task->empty()) {
    const auto lock = shop.look();
    const auto there = check_settling_task(shop, finding.machine, *change.task);
    if (!there) return refuse(Error{ErrorCode::bad_input, there.error().message, there.error().saying}.at("task"));
  }
  return follow_up(shop, finding, "finding changed", change, tell_changed, now);
}

Result<FindingView> settle_finding(OpenShop& shop, std::string_view id, const FindingSettle& edit, Instant now) {
  HW_TRY(check(edit));
  const auto turn = shop.edit();
  HW_TAKE(finding, stored_finding(shop, id));
  return follow_up(shop, finding, "finding settled", edit, tell_settled, now);
}

Result<FindingView> reopen_finding(OpenShop& shop, std::string_view id, const FindingReopen& edit, Instant now) {
  HW_TRY(check(edit));
  const auto turn = shop.edit();
  HW_TAKE(finding, stored_finding(shop, id));
  return follow_up(shop, finding, "finding reopened", edit, tell_reopened, now);
}

Result<FindingsView> show_findings(const OpenShop& shop, const FindingsQuery& query) {
  FindingsView view;
  const bool is_of_the_shop = !query.machine || shop.find(*query.machine);
  std::vector<Finding> found;
  if (query.shown != FindingsShown::settled) {
    HW_TAKE(open, shop.store().open_findings(query.machine));
    found = std::move(open);
  }
  if (!is_of_the_shop && found.empty()) return refuse(shop.find(*query.machine).error());
  std::sort(found.begin(), found.end(), is_more_pressing);
  if (query.shown != FindingsShown::open) {
    HW_TAKE(settled, shop.store().settled_findings(query.machine, settled_shown));
    std::move(settled.begin(), settled.end(), std::back_inserter(found));
  }
  for (const Finding& finding : found) view.findings.push_back(view_of(finding));
  return view;
}

Result<FindingHistoryView> show_finding(const OpenShop& shop, std::string_view id) {
  HW_TAKE(finding, stored_finding(shop, id));
  HW_TAKE(entries, shop.store().entries_about(id));
  FindingHistoryView view{view_of(finding), {}};
  for (const Entry& entry : entries) view.entries.push_back(view_of(entry));
  return view;
}

}  // namespace hw::service
