#pragma once
// How people come in and go: by password (and a code, where they have a second factor), by PIN at a device that has
// joined, by a one-time link. Whoever guesses waits longer each time (access::Tries), and nobody is locked out for
// good. A success is on disk when a function returns.

#include "src/service/access_book.h"
#include "src/service/access_edits.h"
#include "src/service/access_views.h"

namespace hw::service {

// Where somebody signs in.
struct SignInPlace {
  std::string address;                     // the peer's
  std::optional<std::string> device = {};  // the id of the device that has joined
};

// A session that has just begun, and the secret that the browser sends from now on.
struct SignedIn {
  Caller caller;
  std::string secret;  // 43 signs of base64url: 32 random bytes
};

// Refuses not_signed_in: wrong-sign-in (the name, the password, or both: not said which), code-needed, wrong-code;
// too_often: try-later with the seconds.
Result<SignedIn> sign_in(AccessBook& book, const SignInEdit& edit, const SignInPlace& place, Instant now);

// Refuses not_joined where the place is no device that has joined; else as sign_in.
Result<SignedIn> sign_in_by_pin(AccessBook& book, const PinSignInEdit& edit, const SignInPlace& place, Instant now);

// Refuses not_found (link-over): there is no such link, it was used, or is over.
Result<LinkView> look_at_link(AccessBook& book, const LinkSecret& link, Instant now);

// What the person had before (password, PIN, second factor, sessions) is over. Refuses not_found as look_at_link does,
// bad_input: password-needed (neither was chosen, or a lead chose no password), and what access::check_password and
// check_pin refuse. `words` are those that the password must not be made of.
Result<SignedIn> sign_in_by_link(AccessBook& book, const LinkEdit& edit, const SignInPlace& place,
                                 const std::vector<std::string>& words, Instant now);

Result<void> sign_out(AccessBook& book, const Session& session, Instant now);

// Who can sign in by PIN, by name.
std::vector<std::string> people_with_pin(AccessBook& book, Instant now);
// Whether anybody can: before that the first account has to be made on the server's computer.
bool has_accounts(AccessBook& book, Instant now);

}  // namespace hw::service
