#include "src/service/sign_in.h"

#include <cmath>

#include "libs/passwords/one_time_code.h"
#include "libs/passwords/password_hash.h"
#include "src/access/secret_rules.h"
#include "src/service/checked_secret.h"
#include "src/service/ended_sessions.h"
#include "src/service/entry_making.h"

namespace hw::service {
namespace {

constexpr std::size_t name_bytes_max = 240;  // no account's name is longer
constexpr int told_failures = 10;            // after so many wrong tries in a row the lead is told

std::string place_key(std::string_view name, const SignInPlace& place) {
  return fmt::format("{}|{}", name, place.device ? *place.device : place.address);
}

tl::unexpected<Error> wrong_sign_in() {
  return refuse(ErrorCode::not_signed_in, Saying{"wrong-sign-in"},
                "name or password (at a device: the PIN) is not right; what is lost a lead gives anew, by a link");
}

// The book is locked. A failure is noted before the answer goes out.
tl::unexpected<Error> fail(AccessBook& book, const std::string& name, const SignInPlace& place, Instant now,
                           tl::unexpected<Error> refusal) {
  const std::string key = place_key(name, place);
  book.at_places.failed(key, now);
  book.at_names.failed(name, now);
  if (book.at_places.failures(key) % told_failures == 0) {
    const auto kept = book.keep({.notes = {{as_kept(now), name, AccessDeed::sign_in_refused, place.address}}});
    if (!kept) return refuse(kept.error());
  }
  return refusal;
}

void succeed(AccessBook& book, const std::string& name, const SignInPlace& place) {
  book.at_places.succeeded(place_key(name, place));
  book.at_names.succeeded(name);
}

Session new_session(const AccessBook& book, const Account& account, SignInWay way, const SignInPlace& place,
                    const std::string& secret, Instant now) {
  return {book.new_id(now), hash_of_secret(secret), account.name, way, place.device, as_kept(now), as_kept(now), {}};
}

// The book is locked.
Result<SignedIn> begin_session(AccessBook& book, AccessRows rows, const Account& account, SignInWay way,
                               const SignInPlace& place, Instant now) {
  const std::string secret = book.new_secret();
  rows.sessions.push_back(new_session(book, account, way, place, secret, now));
  rows.notes.push_back({as_kept(now), account.name, AccessDeed::signed_in, account.name});
  const Session session = rows.sessions.back();
  HW_TRY(book.keep(rows));
  return SignedIn{book.caller(account, session), secret};
}

// Nothing where the wait is over.
Result<void> check_wait(AccessBook& book, const std::string& name, const SignInPlace& place, Instant now) {
  const Duration wait =
      std::max(book.at_places.wait_left(place_key(name, place), now), book.at_names.wait_left(name, now));
  return wait > Duration{0} ? refuse_for(wait) : Result<void>{};
}

// The hash to compare with, and of nobody's where there is none, so that it takes as long.
std::string hash_to_try(const std::optional<std::string>& hash) { return hash ? *hash : passwords::hash_of_nobody(); }

std::optional<std::int64_t> used_step(const Account& account, const std::string& code, Instant now) {
  return passwords::step_of_code(factor_key_of(account), code, now, account.factor_step);
}

// Behind the right password.
Result<AccessRows> check_factor(AccessBook& book, const Account& account, const SignInEdit& edit,
                                const SignInPlace& place, Instant now) {
  if (!account.factor_key) return AccessRows{};
  if (!edit.code) {
    return refuse(ErrorCode::not_signed_in, Saying{"code-needed"},
                  "code: the six digits that the person's app shows now are needed too");
  }
  const auto step = used_step(account, *edit.code, now);
  if (!step) {
    return fail(book, account.name, place, now,
                refuse(ErrorCode::not_signed_in, Saying{"wrong-code"},
                       "code: it is not the one of this half minute, or was used already; take the next one"));
  }
  Account changed = account;
  changed.factor_step = *step;
  return AccessRows{.accounts = {std::move(changed)}};
}

// The link while it can be used; the book is locked.
Result<Link> find_link(AccessBook& book, std::string_view secret, Instant now) {
  const std::string hash = hash_of_secret(secret);
  HW_TRY(book.take_grant(hash, now));
  const auto found = book.links.find(hash);
  const bool is_good = found != book.links.end() && !found->second.used_at && now < found->second.until &&
                       book.account(found->second.account, now);
  if (is_good) return found->second;
  return refuse(ErrorCode::not_found, Saying{"link-over"},
                "this link is not right, was used already, or is over; a lead makes a new one, and on the server's "
                "computer hourwright admin reset does");
}

Result<void> check_chosen(const LinkEdit& edit, access::Role role, const std::vector<std::string>& words) {
  if (!edit.password && (!edit.pin || role == access::Role::lead)) {
    return refuse(ErrorCode::bad_input, Saying{"password-needed"},
                  "password: choose one; a PIN alone is for devices that have joined, and not for leads");
  }
  if (edit.password) HW_TRY(access::check_password(*edit.password, words));
  if (edit.pin) HW_TRY(access::check_pin(*edit.pin));
  return {};
}

using Hash = std::optional<std::string> Account::*;

// Looks at what was given without holding the book; the account while it is right, with the book locked again.
Result<const Account*> check_given(AccessBook& book, std::unique_lock<std::mutex>& lock, const std::string& name,
                                   std::string_view given, Hash kept, const SignInPlace& place, Instant now) {
  HW_TRY(check_wait(book, name, place, now));
  const Account* account = book.account(name, now);
  const std::optional<std::string> hash = account ? account->*kept : std::nullopt;
  lock.unlock();
  const bool is_right = passwords::is_password_of(hash_to_try(hash), given);
  lock.lock();
  account = book.account(name, now);
  if (is_right && account && account->*kept == hash) return account;
  return fail(book, name, place, now, wrong_sign_in());
}

}  // namespace

Result<SignedIn> sign_in(AccessBook& book, const SignInEdit& edit, const SignInPlace& place, Instant now) {
  if (edit.name.size() > name_bytes_max) return wrong_sign_in();
  const HashingTurn turn(book);
  if (!turn) return refuse_busy();
  std::unique_lock lock(book.mutex);
  HW_TAKE(account, check_given(book, lock, edit.name, edit.password, &Account::password_hash, place, now));
  HW_TAKE(rows, check_factor(book, *account, edit, place, now));
  succeed(book, edit.name, place);
  return begin_session(book, std::move(rows), *account, SignInWay::password, place, now);
}

Result<SignedIn> sign_in_by_pin(AccessBook& book, const PinSignInEdit& edit, const SignInPlace& place, Instant now) {
  if (!place.device) {
    return refuse(ErrorCode::not_joined, Saying{"not-joined"}, "a PIN is for devices that have joined the shop");
  }
  if (edit.name.size() > name_bytes_max) return wrong_sign_in();
  const HashingTurn turn(book);
  if (!turn) return refuse_busy();
  std::unique_lock lock(book.mutex);
  HW_TAKE(account, check_given(book, lock, edit.name, edit.pin, &Account::pin_hash, place, now));
  succeed(book, edit.name, place);
  return begin_session(book, {}, *account, SignInWay::pin, place, now);
}

Result<LinkView> look_at_link(AccessBook& book, const LinkSecret& edit, Instant now) {
  const std::lock_guard lock(book.mutex);
  HW_TAKE(link, find_link(book, edit.secret, now));
  const Account& account = *book.account(link.account, now);
  return LinkView{account.name, account.role, link.until};
}

Result<SignedIn> sign_in_by_link(AccessBook& book, const LinkEdit& edit, const SignInPlace& place,
                                 const std::vector<std::string>& words, Instant now) {
  const HashingTurn turn(book);
  if (!turn) return refuse_busy();
  const std::lock_guard lock(book.mutex);
  HW_TAKE(link, find_link(book, edit.secret, now));
  Account account = *book.account(link.account, now);
  std::vector<std::string> near = words;
  near.push_back(account.name);
  HW_TRY(check_chosen(edit, account.role, near));
  account.password_hash = account.pin_hash = account.factor_key = std::nullopt;
  if (edit.password) account.password_hash = passwords::hash_password(*edit.password);
  if (edit.pin) account.pin_hash = passwords::hash_password(*edit.pin);
  link.used_at = as_kept(now);
  AccessRows rows{.accounts = {account}, .links = {link}, .sessions = ended_sessions(book, account.name, now)};
  rows.notes.push_back({as_kept(now), account.name, AccessDeed::link_used, account.name});
  succeed(book, account.name, place);
  return begin_session(book, std::move(rows), account, SignInWay::link, place, now);
}

Result<void> sign_out(AccessBook& book, const Session& session, Instant now) {
  const std::lock_guard lock(book.mutex);
  Session ended = session;
  ended.ended_at = as_kept(now);
  return book.keep({.sessions = {std::move(ended)}});
}

std::vector<std::string> people_with_pin(AccessBook& book, Instant now) {
  const std::lock_guard lock(book.mutex);
  std::vector<std::string> names;
  for (const auto& [name, account] : book.accounts) {
    if (account.pin_hash && book.account(name, now)) names.push_back(name);
  }
  return names;
}

bool has_accounts(AccessBook& book, Instant now) {
  const std::lock_guard lock(book.mutex);
  for (const auto& [name, account] : book.accounts) {
    if ((account.password_hash || account.pin_hash) && book.account(name, now)) return true;
  }
  return false;
}

}  // namespace hw::service
