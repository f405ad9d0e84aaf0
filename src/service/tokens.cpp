#include "src/service/tokens.h"

#include <algorithm>

#include "src/service/accounts.h"
#include "src/service/entry_making.h"
#include "src/service/title.h"

namespace hw::service {
namespace {

constexpr int token_days_max = 3660;
constexpr int access_notes_max = 200;

TokenView view_of(const AccessBook& book, const Token& token) {
  TokenView view;
  view.id = token.id;
  view.title = token.title;
  view.role = token.role;
  view.permissions = token.permissions ? *token.permissions : book.table.permissions_of(token.role);
  std::erase(view.permissions, access::admit_permission);
  if (token.machines) view.machines = *token.machines;
  view.made_by = token.made_by;
  view.made_at = token.made_at;
  view.ends_at = token.ends_at;
  if (token.used_on) view.used_on = *token.used_on;
  if (token.ended_at) view.ended_at = *token.ended_at;
  if (token.ended_by) view.ended_by = *token.ended_by;
  return view;
}

}  // namespace

Result<void> check_permissions(const access::PermissionTable& table, access::Role role,
                               const std::optional<std::vector<std::string>>& permissions) {
  for (const std::string& one : permissions.value_or(std::vector<std::string>{})) {
    if (one != access::admit_permission && table.may(role, one)) continue;
    return refuse(ErrorCode::bad_input, "permissions: \"{}\" is none that a program of role {} can have",
                  one.substr(0, 40), word_of(role));
  }
  return {};
}

TokensView show_tokens(AccessBook& book) {
  const std::lock_guard lock(book.mutex);
  TokensView view;
  for (const auto& [hash, token] : book.tokens) view.tokens.push_back(view_of(book, token));
  std::sort(view.tokens.begin(), view.tokens.end(), [](const TokenView& a, const TokenView& b) {
    return std::tie(b.made_at, b.id) < std::tie(a.made_at, a.id);
  });
  return view;
}

Result<NewToken> make_token(AccessBook& book, const TokenEdit& edit, const MachineKeys& machines, const std::string& by,
                            Instant now) {
  HW_TRY(check_title("title", edit.title, "the program or the screen that will use it"));
  HW_TRY(check_permissions(book.table, edit.role, edit.permissions));
  HW_TRY(check_machines(edit.role, edit.machines, machines));
  if (edit.days < 1 || edit.days > token_days_max) {
    return refuse(ErrorCode::bad_input, "days: 1 to {}", token_days_max);
  }
  const std::lock_guard lock(book.mutex);
  const std::string secret = book.new_secret();
  const Instant end = now + Duration::hours(std::int64_t{24} * edit.days);
  const Token token{book.new_id(now),
                    hash_of_secret(secret),
                    edit.title,
                    edit.role,
                    edit.permissions,
                    edit.machines,
                    by,
                    as_kept(now),
                    as_kept(end),
                    {},
                    {},
                    {}};
  HW_TRY(book.keep({.tokens = {token}, .notes = {{as_kept(now), by, AccessDeed::token_made, token.title}}}));
  return NewToken{view_of(book, token), secret};
}

Result<void> end_token(AccessBook& book, std::string_view id, const std::string& by, Instant now) {
  const std::lock_guard lock(book.mutex);
  for (const auto& [hash, token] : book.tokens) {
    if (token.id != id) continue;
    if (token.ended_at) return {};
    Token ended = token;
    ended.ended_at = as_kept(now);
    ended.ended_by = by;
    return book.keep({.tokens = {ended}, .notes = {{as_kept(now), by, AccessDeed::token_ended, ended.title}}});
  }
  return refuse(ErrorCode::not_found, "there is no token {}", id.substr(0, 40));
}

Result<AccessNotesView> show_access_notes(AccessBook& book) {
  HW_TAKE(notes, book.store.access_notes(access_notes_max));
  return AccessNotesView{std::move(notes)};
}

}  // namespace hw::service
