#include "src/service/entry_making.h"
#include "src/service/make_views.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

// Refuses where the entry cannot count for its task.
Result<void> check_counts(const OpenShop& shop, const OpenMachine& machine, std::string_view task) {
  HW_TAKE(record, find_task(machine, task));
  return check_is_not_retired(shop, *record);
}

std::string title_of_task(const OpenMachine& machine, std::string_view task) {
  const auto record = find_task(machine, task);
  return record ? (*record)->task.title : std::string{task};
}

// The entry for a task that was done. What came for a task or machine that is not there (any more) is kept too: it
// resets nothing, and waits for the lead.
Result<Entry> done_entry(const OpenShop& shop, std::string_view machine, std::string_view task, const DoneEdit& edit,
                         Instant now) {
  const auto lock = shop.look();
  HW_TRY(check_key("task", task));
  HW_TAKE(entry, new_or_stray_entry(shop, machine, "task done", edit, now));
  entry.task = task;
  entry.note = edit.note;
  const auto open = shop.find(machine);
  if (open) {
    if (const auto counts = check_counts(shop, **open, task); !counts) make_stray(entry, counts.error());
  }
  if (edit.as_found) entry.body.doing = TaskDoing{.as_found = edit.as_found};
  tell_done(entry, open ? title_of_task(**open, task) : std::string{task}, edit.as_found);
  return std::move(entry);
}

Result<void> check_undo(const Entry& undone, const Signature& signature, Instant now) {
  if (undone.kind != "task done") return refuse(ErrorCode::conflict, "only a task done can be taken back");
  if (undone.body.stop) {
    return refuse(ErrorCode::conflict, Saying{"undo-of-stop"},
                  "it was done in a stop that is closed; make a new entry that says what is right");
  }
  if (undone.is_undone) return refuse(ErrorCode::conflict, Saying{"undo-twice"}, "it was taken back already");
  if (undone.by != signature.by) {
    return refuse(ErrorCode::conflict, Saying{"undo-not-own", {{"by", undone.by}}},
                  "it is {}'s entry, so only {} can take it back", undone.by, undone.by);
  }
  // A clock that was set back meanwhile does not give more time.
  if (now - undone.at > undo_within || undone.at - now > undo_within) {
    return refuse(ErrorCode::conflict, Saying{"undo-late", {}, {{"count", undo_within.as_seconds()}}},
                  "it can be taken back for {:.0f} s only; make a new entry that says what is right",
                  undo_within.as_seconds());
  }
  return {};
}

}  // namespace

Result<EntryView> mark_done(OpenShop& shop, std::string_view machine, std::string_view task, const DoneEdit& edit,
                            Instant now) {
  HW_TRY(check_signature(edit.id, edit.by));
  HW_TRY(check_note(edit.note));
  const auto turn = shop.edit();
  HW_TAKE(before, repeated(shop, edit.id, {"task done", machine, std::string{task}}));
  if (before) return view_of(*before);
  HW_TAKE(entry, done_entry(shop, machine, task, edit, now));
  HW_TRY(keep(shop.store(), entry));
  if (shop.find(machine)) HW_TRY(reload_last_done(shop, machine, {*entry.task}));
  return view_of(entry);
}

Result<EntryView> undo(OpenShop& shop, std::string_view id, const Signature& signature, Instant now) {
  HW_TRY(check_signature(signature.id, signature.by));
  const auto turn = shop.edit();
  HW_TAKE(undone, shop.store().entry(id));
  if (!undone) return refuse(ErrorCode::not_found, Saying{"no-entry"}, "there is no entry {}", id.substr(0, 40));
  HW_TAKE(before, repeated(shop, signature.id, {"undone", undone->machine, undone->task}));
  if (before && before->undoes == undone->id) return view_of(*before);
  if (before)
    return refuse(ErrorCode::conflict, id_used, "id: {} took back another entry; an id is used once", signature.id);
  HW_TRY(check_undo(*undone, signature, now));
  Entry entry;
  {
    const auto lock = shop.look();
    HW_TAKE(made, new_or_stray_entry(shop, undone->machine, "undone", signature, now));
    entry = std::move(made);
  }
  entry.task = undone->task;
  entry.undoes = undone->id;
  entry.body.title = undone->body.title;
  entry.says = fmt::format("taken back: {}", undone->says);
  HW_TRY(keep(shop.store(), entry));
  if (shop.find(undone->machine)) HW_TRY(reload_last_done(shop, undone->machine, {*undone->task}));
  return view_of(entry);
}

}  // namespace hw::service
