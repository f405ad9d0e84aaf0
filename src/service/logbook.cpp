#include "src/service/logbook.h"

#include <algorithm>
#include <array>

#include "libs/values/small_letters.h"
#include "src/service/entry_making.h"
#include "src/service/lives.h"
#include "src/service/make_views.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

constexpr int count_max = 500;

// EntryKind of api/openapi.yaml.
constexpr std::array<std::string_view, 32> entry_kinds = {
    "task done",    "task added",      "task changed",    "task retired",     "undone",
    "hours read",   "hours settled",   "round begun",     "check answered",   "others as they should be",
    "finding made", "finding changed", "finding settled", "finding reopened", "correction",
    "points moved", "walk changed",    "use announced",   "use withdrawn",    stop_agreed,
    stop_changed,   stop_withdrawn,    stop_closed,       interval_moved,     part_kept,
    part_ended,     stores_begun,      sheet_read,        kit_kept,           stock_moved,
    order_placed,   order_changed};

Result<void> check(const LogbookQuery& query) {
  if (query.kind && std::find(entry_kinds.begin(), entry_kinds.end(), *query.kind) == entry_kinds.end()) {
    return refuse(ErrorCode::bad_input, "kind: \"{}\" is none of: {}", query.kind->substr(0, 60),
                  fmt::join(entry_kinds, ", "));
  }
  if (query.first && query.last && *query.first > *query.last) {
    return refuse(ErrorCode::bad_input,
                  Saying{"dates-turned", {{"from", print(*query.first)}, {"to", print(*query.last)}}},
                  "from: {} is after {}", print(*query.first), print(*query.last));
  }
  if (query.count < 1 || query.count > count_max) {
    return refuse(ErrorCode::bad_input, "count: {} is out of range; right is 1 to {}", query.count, count_max);
  }
  return {};
}

EntryFilter filter_of(const LogbookQuery& query, const Zone& zone) {
  EntryFilter filter;
  filter.machine = query.machine;
  filter.kind = query.kind;
  filter.by = query.by;
  if (query.first) filter.from = zone.at(*query.first, 0);
  if (query.last) filter.until = zone.at(*query.last + 1, 0);
  if (query.text) filter.text = in_small_letters(*query.text);
  filter.only_strays = query.only_strays;
  filter.before = query.before;
  return filter;
}

// What is about the stores, or about all machines, names none.
Result<Entry> correction_of(const OpenShop& shop, const Entry& corrected, const CorrectionEdit& edit, Instant now) {
  constexpr std::string_view kind = "correction";
  if (corrected.machine.empty()) return bare_entry(shop, "", kind, edit, now);
  const auto lock = shop.look();
  return new_or_stray_entry(shop, corrected.machine, kind, edit, now);
}

std::vector<EntryView> views_of(const std::vector<Entry>& entries) {
  std::vector<EntryView> views;
  for (const Entry& entry : entries) views.push_back(view_of(entry));
  return views;
}

}  // namespace

Result<LogbookView> show_logbook(const OpenShop& shop, const LogbookQuery& query) {
  HW_TRY(check(query));
  HW_TAKE(entries, shop.store().entries(filter_of(query, shop.calendar().zone), query.count + 1));
  HW_TAKE(strays, shop.store().stray_count());
  LogbookView view;
  view.more = static_cast<int>(entries.size()) > query.count;
  view.strays = strays;
  if (view.more) entries.pop_back();
  view.entries = views_of(entries);
  return view;
}

Result<std::vector<EntryView>> list_logbook(const OpenShop& shop, const LogbookQuery& query) {
  HW_TRY(check(query));
  HW_TAKE(entries, shop.store().entries(filter_of(query, shop.calendar().zone), entries_listed_max + 1));
  if (static_cast<int>(entries.size()) > entries_listed_max) {
    return refuse(ErrorCode::too_large, Saying{"entries-many", {}, {{"most", double{entries_listed_max}}}},
                  "these are more than {} entries; choose fewer by from and to", entries_listed_max);
  }
  return views_of(entries);
}

Result<record::Verdict> prove_logbook(const OpenShop& shop) { return shop.store().verdict(); }

Result<EntryView> correct_entry(OpenShop& shop, std::string_view id, const CorrectionEdit& edit, Instant now) {
  HW_TRY(check(edit));
  const auto turn = shop.edit();
  HW_TAKE(corrected, shop.store().entry(id));
  if (!corrected) return refuse(ErrorCode::not_found, Saying{"no-entry"}, "there is no entry {}", id.substr(0, 40));
  HW_TAKE(before, repeated(shop, edit.id, {"correction", corrected->machine, corrected->task}));
  if (before && before->body.corrects == corrected->id) return view_of(*before);
  if (before)
    return refuse(ErrorCode::conflict, id_used, "id: {} corrected another entry; an id is used once", edit.id);
  HW_TAKE(entry, correction_of(shop, *corrected, edit, now));
  entry.task = corrected->task;
  entry.body.corrects = corrected->id;
  entry.body.finding = corrected->body.finding;
  entry.body.stop = corrected->body.stop;
  entry.body.stray.reset();  // a correction is meant for the entry, which is there
  entry.body.stray_saying.reset();
  entry.body.corrects_ordinal = corrected->ordinal;
  entry.body.right = edit.says;
  entry.says = fmt::format("to entry {}: {}", corrected->ordinal, edit.says);
  HW_TRY(keep(shop.store(), entry));
  const auto lock = shop.change();
  if (const auto machine = shop.find(entry.machine)) ++(*machine)->tasks_version;
  return view_of(entry);
}

}  // namespace hw::service
