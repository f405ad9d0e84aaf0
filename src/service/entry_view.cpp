#include "src/service/make_views.h"
#include "src/service/use_cases.h"

namespace hw::service {

namespace {

EntryTold told_of(const EntryBody& body) {
  EntryTold told{.title = body.title,
                 .version = body.version,
                 .display = body.display,
                 .checks = {},
                 .what = body.what,
                 .severity = body.severity,
                 .owner = body.owner,
                 .due_on = body.due_on,
                 .settling_task = body.settling_task,
                 .unlinked = body.unlinked,
                 .done = body.done,
                 .why = body.why,
                 .corrects_ordinal = body.corrects_ordinal,
                 .right = body.right,
                 .points = body.points,
                 .order = body.order,
                 .use = body.use,
                 .stop = body.stop_told,
                 .interval = body.interval,
                 .stores = body.stores_told};
  if (body.checks) told.checks = static_cast<int>(body.checks->size());
  return told;
}

}  // namespace

EntryView view_of(const Entry& entry) {
  const EntryBody& body = entry.body;
  EntryView view{.id = entry.id,
                 .ordinal = entry.ordinal,
                 .kind = entry.kind,
                 .machine = entry.machine,
                 .task = entry.task,
                 .by = entry.by,
                 .at = entry.at,
                 .device_at = entry.device_at,
                 .device_off_s = body.device_off_s,
                 .happened_at = entry.happened_at,
                 .says = entry.says,
                 .note = entry.note,
                 .counters = entry.counters,
                 .undo_until = {},
                 .undone = {},
                 .walk = body.walk,
                 .rhythm = body.rhythm,
                 .answers = body.answers,
                 .finding = body.finding,
                 .photos = body.photos,
                 .corrects = body.corrects,
                 .corrected_by = {},
                 .stray = body.stray,
                 .stray_saying = body.stray_saying,
                 .stop = body.stop,
                 .doing = body.doing,
                 .told = told_of(body)};
  if (entry.kind == "task done" && !body.stop) view.undo_until = entry.at + undo_within;
  if (entry.is_undone) view.undone = true;
  if (!entry.corrected_by.empty()) view.corrected_by = entry.corrected_by;
  return view;
}

}  // namespace hw::service
