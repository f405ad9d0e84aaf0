#pragma once
// Who may come in, as it is kept. No secret is kept that somebody could come in with: passwords and PINs by their
// argon2id hash, what is random by its SHA-256. The exception is the key of a second factor, which both sides need.

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include <boost/describe.hpp>

#include "libs/formats/json_types.h"
#include "libs/values/instant.h"
#include "libs/values/local_date.h"
#include "src/access/role.h"

namespace hw::formats {

template <>
struct JsonText<access::Role> {
  static Result<access::Role> parse(std::string_view text) { return access::parse_role(text); }
  static std::string print(access::Role role) { return std::string{access::word_of(role)}; }
};

}  // namespace hw::formats

namespace hw::service {

using MachineKeys = std::vector<std::string>;

// Somebody who may come in, by the name that stands in the logbook.
struct Account {
  std::string name;
  access::Role role = access::Role::viewer;
  std::optional<MachineKeys> machines = {};  // to which it is limited; nothing: all
  std::optional<LocalDate> until = {};       // the last day, the plant's
  std::string made_by;
  Instant made_at;
  std::optional<Instant> ended_at = {};
  std::optional<std::string> password_hash = {};
  std::optional<std::string> pin_hash = {};
  std::optional<std::string> factor_key = {};  // base64url
  std::int64_t factor_step = 0;                // of the last code that was used: an older one counts no more
};

// A link by which somebody chooses what to sign in with, once.
struct Link {
  std::string secret_hash;
  std::string account;
  std::string made_by;
  Instant until;
  std::optional<Instant> used_at = {};  // or made void
};

enum class SignInWay { password, pin, link };
BOOST_DESCRIBE_ENUM(SignInWay, password, pin, link)

struct Session {
  std::string id;
  std::string secret_hash;
  std::string account;
  SignInWay way = SignInWay::password;
  std::optional<std::string> device = {};  // the id of the device that has joined, where it began there
  Instant begun_at;
  Instant seen_at;
  std::optional<Instant> ended_at = {};
};

// What another program comes in with.
struct Token {
  std::string id;
  std::string secret_hash;
  std::string title;
  access::Role role = access::Role::viewer;
  std::optional<std::vector<std::string>> permissions = {};  // of the role's; nothing: all of them
  std::optional<MachineKeys> machines = {};
  std::string made_by;
  Instant made_at;
  Instant ends_at;
  std::optional<LocalDate> used_on = {};
  std::optional<Instant> ended_at = {};
  std::optional<std::string> ended_by = {};
};

// What happened about access; only ever added.
enum class AccessDeed {
  account_made,
  account_changed,
  account_ended,
  link_made,
  link_used,
  signed_in,
  sign_in_refused,
  sessions_ended,
  password_changed,
  pin_changed,
  second_factor_set,
  second_factor_ended,
  second_factor_demanded,  // of office roles; the last of this and the next is the plant's rule
  second_factor_offered,
  token_made,
  token_ended
};
BOOST_DESCRIBE_ENUM(AccessDeed, account_made, account_changed, account_ended, link_made, link_used, signed_in,
                    sign_in_refused, sessions_ended, password_changed, pin_changed, second_factor_set,
                    second_factor_ended, second_factor_demanded, second_factor_offered, token_made, token_ended)

struct AccessNote {
  Instant at;
  std::string by;  // a person, or this_computer
  AccessDeed what = AccessDeed::signed_in;
  std::string about;  // whose account, which token
};
BOOST_DESCRIBE_STRUCT(AccessNote, (), (at, by, what, about))

inline constexpr std::string_view this_computer = "this computer";

// Rows to be kept, each in the place of the one with its name, hash or id; notes are added. As they are read again, the
// only note among them is the last that says whether a second factor is demanded.
struct AccessRows {
  std::vector<Account> accounts = {};
  std::vector<Link> links = {};
  std::vector<Session> sessions = {};
  std::vector<Token> tokens = {};
  std::vector<AccessNote> notes = {};
};

// What the command line leaves in the data folder for the server, by the hash of the secret that it printed: the server
// takes it when somebody comes with the secret. So the one process that writes the database stays the only one.
struct Grant {
  std::string kind;  // "link" for an account that is made or changed by it, "reset" for one that is there, "token"
  std::string name;  // of the account; the token's title
  access::Role role = access::Role::viewer;
  std::optional<std::vector<std::string>> permissions = {};
  std::optional<MachineKeys> machines = {};
  Instant made_at = {};
  Instant ends_at = {};
};
BOOST_DESCRIBE_STRUCT(Grant, (), (kind, name, role, permissions, machines, made_at, ends_at))

}  // namespace hw::service
