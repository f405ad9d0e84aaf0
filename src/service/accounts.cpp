#include "src/service/accounts.h"

#include <algorithm>

#include "src/access/session_limits.h"
#include "src/service/ended_sessions.h"
#include "src/service/entry_making.h"
#include "src/service/title.h"

namespace hw::service {
namespace {

AccessNote account_note(AccessDeed what, const std::string& name, const std::string& by, Instant now) {
  return {as_kept(now), by, what, name};
}

tl::unexpected<Error> no_account(std::string_view name) {
  return refuse(ErrorCode::not_found, Saying{"no-account", {{"name", std::string{name.substr(0, 60)}}}},
                "there is no account {} that goes on", name.substr(0, 60));
}

// Whether the shop would be without a lead; the book is locked.
Result<void> check_lead_stays(AccessBook& book, const std::string& name, Instant now) {
  for (const auto& [other, account] : book.accounts) {
    if (other != name && account.role == access::Role::lead && book.account(other, now)) return {};
  }
  return refuse(ErrorCode::conflict, Saying{"last-lead"}, "{} is the last lead; make another one first", name);
}

Result<void> check_edit(const AccountEdit& edit, const MachineKeys& machines, LocalDate today) {
  HW_TRY(check_title("name", edit.name, "as it is to stand in the logbook"));
  HW_TRY(check_machines(edit.role, edit.machines, machines));
  if (edit.role == access::Role::outside && !edit.until) {
    return refuse(ErrorCode::bad_input, "until: outside service needs a last day");
  }
  if (edit.until && *edit.until < today) return refuse(ErrorCode::bad_input, "until: that day is over");
  return {};
}

void add_link(AccessBook& book, AccessRows& rows, const std::string& name, const std::string& by,
              const std::string& secret, Instant now) {
  for (const auto& [hash, link] : book.links) {
    if (link.account != name || link.used_at) continue;
    rows.links.push_back(link);
    rows.links.back().used_at = as_kept(now);
  }
  rows.links.push_back({hash_of_secret(secret), name, by, as_kept(now + access::link_life), {}});
  rows.notes.push_back(account_note(AccessDeed::link_made, name, by, now));
}

// Keeps the rows with a new link; the book is locked.
Result<NewLink> keep_with_link(AccessBook& book, AccessRows rows, const Account& account, const std::string& by,
                               Instant now) {
  const std::string secret = book.new_secret();
  add_link(book, rows, account.name, by, secret, now);
  HW_TRY(book.keep(rows));
  return NewLink{{account.name, account.role, rows.links.back().until}, secret};
}

AccountView view_of(AccessBook& book, const Account& account, Instant now) {
  AccountView view;
  view.name = account.name;
  view.role = account.role;
  if (account.machines) view.machines = *account.machines;
  if (account.until) view.until = *account.until;
  view.made_by = account.made_by;
  view.made_at = account.made_at;
  if (account.ended_at) view.ended_at = *account.ended_at;
  view.has_password = account.password_hash.has_value();
  view.has_pin = account.pin_hash.has_value();
  view.has_second_factor = account.factor_key.has_value();
  for (const auto& [hash, link] : book.links) {
    if (link.account == account.name && !link.used_at && now < link.until) view.link_until = link.until;
  }
  for (const auto& [hash, session] : book.sessions) {
    if (session.account != account.name) continue;
    if (!view.seen_at || *view.seen_at < session.seen_at) view.seen_at = session.seen_at;
    if (book.goes_on(session, now)) ++view.sessions;
  }
  return view;
}

}  // namespace

Result<void> check_machines(access::Role role, const std::optional<MachineKeys>& limited_to,
                            const MachineKeys& machines) {
  const bool is_outside = role == access::Role::outside;
  if (is_outside && (!limited_to || limited_to->empty())) {
    return refuse(ErrorCode::bad_input, "machines: outside service needs one at least");
  }
  if (!is_outside && limited_to) {
    return refuse(ErrorCode::bad_input, "machines: only outside service is limited to some");
  }
  for (const std::string& key : limited_to.value_or(MachineKeys{})) {
    if (std::find(machines.begin(), machines.end(), key) != machines.end()) continue;
    return refuse(ErrorCode::not_found, Saying{"no-machine", {{"machine", key.substr(0, 60)}}},
                  "machines: there is no machine {}", key.substr(0, 60));
  }
  return {};
}

AccountsView show_accounts(AccessBook& book, Instant now) {
  const std::lock_guard lock(book.mutex);
  AccountsView view;
  for (const auto& [name, account] : book.accounts) view.accounts.push_back(view_of(book, account, now));
  view.second_factor_demanded = book.demands_second_factor;
  view.office_roles.assign(book.table.office.begin(), book.table.office.end());
  return view;
}

Result<NewLink> make_account(AccessBook& book, const AccountEdit& edit, const MachineKeys& machines,
                             const std::string& by, Instant now) {
  HW_TRY(check_edit(edit, machines, book.zone.date_of(now)));
  const std::lock_guard lock(book.mutex);
  if (book.account(edit.name, now)) {
    return refuse(ErrorCode::conflict, Saying{"account-there", {{"name", edit.name}}}, "{} has an account", edit.name);
  }
  const Account account{.name = edit.name,
                        .role = edit.role,
                        .machines = edit.machines,
                        .until = edit.until,
                        .made_by = by,
                        .made_at = as_kept(now)};
  return keep_with_link(book,
                        {.accounts = {account}, .notes = {account_note(AccessDeed::account_made, edit.name, by, now)}},
                        account, by, now);
}

Result<void> change_account(AccessBook& book, const AccountEdit& edit, const MachineKeys& machines,
                            const std::string& by, Instant now) {
  HW_TRY(check_edit(edit, machines, book.zone.date_of(now)));
  const std::lock_guard lock(book.mutex);
  const auto found = book.accounts.find(edit.name);
  if (found == book.accounts.end() || found->second.ended_at) return no_account(edit.name);
  Account account = found->second;
  if (account.role == access::Role::lead && (edit.role != access::Role::lead || edit.until)) {
    HW_TRY(check_lead_stays(book, account.name, now));
  }
  account.role = edit.role;
  account.machines = edit.machines;
  account.until = edit.until;
  return book.keep(
      {.accounts = {account}, .notes = {account_note(AccessDeed::account_changed, account.name, by, now)}});
}

Result<void> end_account(AccessBook& book, const NameEdit& edit, const std::string& by, Instant now) {
  const std::lock_guard lock(book.mutex);
  const auto found = book.accounts.find(edit.name);
  if (found == book.accounts.end() || found->second.ended_at) return no_account(edit.name);
  Account account = found->second;
  if (account.role == access::Role::lead) HW_TRY(check_lead_stays(book, account.name, now));
  AccessRows rows{.sessions = ended_sessions(book, account.name, now),
                  .notes = {account_note(AccessDeed::account_ended, account.name, by, now)}};
  account.ended_at = as_kept(now);
  account.password_hash = account.pin_hash = account.factor_key = std::nullopt;
  rows.accounts = {std::move(account)};
  return book.keep(rows);
}

Result<NewLink> make_link(AccessBook& book, const NameEdit& edit, const std::string& by, Instant now) {
  const std::lock_guard lock(book.mutex);
  const Account* const account = book.account(edit.name, now);
  if (!account) return no_account(edit.name);
  return keep_with_link(book, {}, *account, by, now);
}

Result<void> rule_second_factor(AccessBook& book, const SecondFactorRule& edit, const std::string& by, Instant now) {
  const std::lock_guard lock(book.mutex);
  if (edit.demanded == book.demands_second_factor) return {};
  const Account* const account = book.account(by, now);
  if (edit.demanded && (!account || !account->factor_key)) {
    return refuse(ErrorCode::conflict, Saying{"own-second-factor"},
                  "{} has no second factor; who demands it of others sets up the own one first", by);
  }
  const auto what = edit.demanded ? AccessDeed::second_factor_demanded : AccessDeed::second_factor_offered;
  return book.keep({.notes = {{as_kept(now), by, what, ""}}});
}

Result<void> end_sessions_of(AccessBook& book, const NameEdit& edit, const std::string& by, Instant now) {
  const std::lock_guard lock(book.mutex);
  if (!book.accounts.contains(edit.name)) return no_account(edit.name);
  return book.keep({.sessions = ended_sessions(book, edit.name, now),
                    .notes = {account_note(AccessDeed::sessions_ended, edit.name, by, now)}});
}

}  // namespace hw::service
