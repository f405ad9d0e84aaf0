#include <algorithm>
#include <cmath>

#include "libs/values/characters.h"
#include "src/service/entry_making.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

constexpr double factor_max = 10;
constexpr std::size_t why_max = 200;

UseChangeView view_of(const UseChange& change) {
  UseChangeView view{.id = change.id,
                     .machine = {},
                     .from = change.from,
                     .until = change.until,
                     .factor = change.factor,
                     .why = change.why,
                     .by = change.by,
                     .at = change.at,
                     .withdrawn = change.is_withdrawn};
  if (change.machine) view.machine = *change.machine;
  return view;
}

Result<void> check(const OpenShop& shop, const UseChangeEdit& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  if (edit.machine) HW_TRY(shop.find(*edit.machine));
  if (edit.until && *edit.until < edit.from) {
    return refuse(ErrorCode::bad_input,
                  Saying{"dates-turned", {{"from", print(edit.from)}, {"to", print(*edit.until)}}},
                  "until: {} is before {}, its first day", print(*edit.until), print(edit.from));
  }
  if (!std::isfinite(edit.factor) || edit.factor < 0 || edit.factor > factor_max) {
    return refuse(ErrorCode::bad_input, "factor: {} must be 0 to {}; 1.5 is half as much again", edit.factor,
                  factor_max);
  }
  if (edit.why.empty() || characters_in(edit.why) > why_max) {
    return refuse(ErrorCode::bad_input, Saying{"text-length", {}, {{"most", double{why_max}}}},
                  "why: say it in 1 to {} characters", why_max);
  }
  return {};
}

std::string says_of(const UseChangeEdit& edit) {
  const std::string until = edit.until ? fmt::format(" to {}", print(*edit.until)) : "";
  return fmt::format("from {}{} on {} times the usual use: {}", print(edit.from), until, edit.factor, edit.why);
}

Result<UseChangeView> known(const OpenShop& shop, std::string_view id) {
  const auto lock = shop.look();
  for (const UseChange& change : shop.use_changes()) {
    if (change.id == id) return view_of(change);
  }
  return refuse(ErrorCode::not_found, "there is no announced change of use {}", id.substr(0, 40));
}

}  // namespace

UseChangesView show_use_changes(const OpenShop& shop) {
  UseChangesView view;
  const auto lock = shop.look();
  for (const UseChange& change : shop.use_changes()) view.changes.push_back(view_of(change));
  return view;
}

Result<UseChangeView> announce_use(OpenShop& shop, const UseChangeEdit& edit, Instant now) {
  HW_TRY(check(shop, edit));
  const auto turn = shop.edit();
  const std::string machine = edit.machine.value_or(std::string{whole_plant});
  HW_TAKE(before, repeated(shop, edit.id, {use_announced, machine}));
  if (before) return known(shop, edit.id);
  Entry entry = bare_entry(shop, machine, use_announced, edit, now);
  entry.body.use = UseChangeText{edit.from, edit.until, edit.factor};
  entry.body.why = edit.why;
  entry.says = says_of(edit);
  HW_TRY(keep(shop.store(), entry));
  {
    const auto lock = shop.change();
    shop.add_use_change(use_change_of(entry));
  }
  return known(shop, edit.id);
}

Result<UseChangeView> withdraw_use(OpenShop& shop, std::string_view id, const Signature& signature, Instant now) {
  HW_TRY(check_signature(signature.id, signature.by));
  const auto turn = shop.edit();
  HW_TAKE(change, known(shop, id));
  const std::string machine = change.machine.value_or(std::string{whole_plant});
  HW_TAKE(before, repeated(shop, signature.id, {use_withdrawn, machine}));
  if (before && before->undoes == id) return change;
  if (before)
    return refuse(ErrorCode::conflict, id_used, "id: {} withdrew another change; an id is used once", signature.id);
  if (change.withdrawn) return refuse(ErrorCode::conflict, Saying{"withdrawn"}, "it was withdrawn already");
  Entry entry = bare_entry(shop, machine, use_withdrawn, signature, now);
  entry.undoes = change.id;
  entry.body.use = UseChangeText{change.from, change.until, change.factor};
  entry.says = fmt::format("withdrawn: {} times the usual use from {} on", change.factor, print(change.from));
  HW_TRY(keep(shop.store(), entry));
  {
    const auto lock = shop.change();
    shop.withdraw_use_change(id);
  }
  return known(shop, id);
}

}  // namespace hw::service
