#include "src/service/own_access.h"

#include <algorithm>

#include "libs/passwords/one_time_code.h"
#include "libs/passwords/password_hash.h"
#include "libs/values/secret.h"
#include "src/access/secret_rules.h"
#include "src/service/checked_secret.h"
#include "src/service/ended_sessions.h"
#include "src/service/entry_making.h"

namespace hw::service {
namespace {

constexpr std::size_t factor_key_size = 20;  // that of HMAC-SHA-1 (RFC 4226, section 4: 160 bits are recommended)

AccessNote note_of(const Session& present, AccessDeed what, Instant now) {
  return {as_kept(now), present.account, what, present.account};
}

// What the person gave once more is the present password or, where a PIN is as good, the PIN.
enum class Once { password, password_or_pin };

Result<void> check_once_more(AccessBook& book, const Session& present, std::string_view given, Once which,
                             Instant now) {
  const HashingTurn turn(book);
  if (!turn) return refuse_busy();
  const std::string key = present.account + "|" + present.id;
  std::optional<Account> account;
  {
    const std::lock_guard lock(book.mutex);
    if (const Duration wait = book.at_places.wait_left(key, now); wait > Duration{0}) return refuse_for(wait);
    if (const Account* const found = book.account(present.account, now)) account = *found;
  }
  const bool is_pin_good = which == Once::password_or_pin || (account && !account->password_hash);
  const auto fits = [given](const std::optional<std::string>& hash) {
    return hash && passwords::is_password_of(*hash, given);
  };
  const bool is_right = account && (fits(account->password_hash) || (is_pin_good && fits(account->pin_hash)));
  const std::lock_guard lock(book.mutex);
  if (is_right) {
    book.at_places.succeeded(key);
    return {};
  }
  book.at_places.failed(key, now);
  return refuse(ErrorCode::not_signed_in, Saying{"wrong-sign-in"}, "now: it is not what you sign in with");
}

// Changes the account and notes it; `more` rows go along.
template <class Change>
Result<void> change_own(AccessBook& book, const Session& present, AccessDeed what, Instant now, const Change& change) {
  const std::lock_guard lock(book.mutex);
  const Account* const found = book.account(present.account, now);
  if (!found) return refuse(ErrorCode::not_signed_in, Saying{"not-signed-in"}, "the account is over");
  Account account = *found;
  AccessRows rows{.notes = {note_of(present, what, now)}};
  change(account, rows);
  rows.accounts = {std::move(account)};
  return book.keep(rows);
}

}  // namespace

SessionsView show_sessions(AccessBook& book, const Session& present, const std::map<std::string, std::string>& titles,
                           Instant now) {
  const std::lock_guard lock(book.mutex);
  SessionsView view;
  for (const auto& [hash, session] : book.sessions) {
    if (session.account != present.account || !book.goes_on(session, now)) continue;
    SessionView one{
        session.id, session.way, {}, session.begun_at, session.seen_at, end_of(session), session.id == present.id};
    if (session.device) {
      const auto title = titles.find(*session.device);
      one.device = title == titles.end() ? *session.device : title->second;
    }
    view.sessions.push_back(std::move(one));
  }
  std::sort(view.sessions.begin(), view.sessions.end(), [](const SessionView& a, const SessionView& b) {
    return std::tie(b.begun_at, b.id) < std::tie(a.begun_at, a.id);
  });
  return view;
}

Result<void> end_session(AccessBook& book, const Session& present, std::string_view id, Instant now) {
  const std::lock_guard lock(book.mutex);
  for (const auto& [hash, session] : book.sessions) {
    if (session.id != id || session.account != present.account) continue;
    if (session.ended_at) return {};
    Session ended = session;
    ended.ended_at = as_kept(now);
    return book.keep({.sessions = {std::move(ended)}, .notes = {note_of(present, AccessDeed::sessions_ended, now)}});
  }
  return refuse(ErrorCode::not_found, "there is no session {} of yours", id.substr(0, 40));
}

Result<void> end_other_sessions(AccessBook& book, const Session& present, Instant now) {
  const std::lock_guard lock(book.mutex);
  return book.keep({.sessions = ended_sessions(book, present.account, now, present.id),
                    .notes = {note_of(present, AccessDeed::sessions_ended, now)}});
}

Result<void> change_password(AccessBook& book, const Session& present, const PasswordEdit& edit,
                             const std::vector<std::string>& words, Instant now) {
  HW_TRY(check_once_more(book, present, edit.now, Once::password, now));
  std::vector<std::string> near = words;
  near.push_back(present.account);
  HW_TRY(access::check_password(edit.password, near));
  const std::string hash = passwords::hash_password(edit.password);
  return change_own(book, present, AccessDeed::password_changed, now, [&](Account& account, AccessRows& rows) {
    account.password_hash = hash;
    rows.sessions = ended_sessions(book, account.name, now, present.id);
  });
}

Result<void> change_pin(AccessBook& book, const Session& present, const PinEdit& edit, Instant now) {
  HW_TRY(check_once_more(book, present, edit.now, Once::password_or_pin, now));
  HW_TRY(access::check_pin(edit.pin));
  const std::string hash = passwords::hash_password(edit.pin);
  return change_own(book, present, AccessDeed::pin_changed, now,
                    [&](Account& account, AccessRows&) { account.pin_hash = hash; });
}

Result<std::string> begin_second_factor(AccessBook& book, const Session& present, const NowEdit& edit, Instant now) {
  HW_TRY(check_once_more(book, present, edit.now, Once::password, now));
  const std::lock_guard lock(book.mutex);
  std::string key = book.random(factor_key_size);
  book.factors_begun[present.account] = key;
  return key;
}

Result<void> set_second_factor(AccessBook& book, const Session& present, const CodeEdit& edit, Instant now) {
  std::string key;
  {
    const std::lock_guard lock(book.mutex);
    const auto begun = book.factors_begun.find(present.account);
    if (begun == book.factors_begun.end()) {
      return refuse(ErrorCode::conflict, "no second factor was begun, or the server was restarted since; begin again");
    }
    key = begun->second;
  }
  const auto step = passwords::step_of_code(key, edit.code, now, 0);
  if (!step) {
    return refuse(ErrorCode::not_signed_in, Saying{"wrong-code"},
                  "code: it is not the one of this half minute; is the clock of the phone right?");
  }
  return change_own(book, present, AccessDeed::second_factor_set, now, [&](Account& account, AccessRows& rows) {
    account.factor_key = print_base64url(key);
    account.factor_step = *step;
    rows.sessions = ended_sessions(book, account.name, now, present.id);
    book.factors_begun.erase(account.name);
  });
}

Result<void> end_second_factor(AccessBook& book, const Session& present, const NowEdit& edit, Instant now) {
  HW_TRY(check_once_more(book, present, edit.now, Once::password, now));
  return change_own(book, present, AccessDeed::second_factor_ended, now, [](Account& account, AccessRows&) {
    account.factor_key = std::nullopt;
    account.factor_step = 0;
  });
}

}  // namespace hw::service
