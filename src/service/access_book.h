#pragma once
// Who may come in, in memory as on disk: the one place that sign_in.h, own_access.h, accounts.h and tokens.h work on.
// Each of their functions holds its mutex; what changes goes to disk first and counts then.

#include <atomic>
#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "src/access/join_codes.h"
#include "src/access/permission_table.h"
#include "src/access/tries.h"
#include "src/service/access_rows.h"
#include "src/service/store.h"

namespace hw::service {

// Who asks: somebody with a session, or a program with a token.
struct Caller {
  std::string name;  // of the person; the token's title
  access::Role role = access::Role::viewer;
  std::vector<std::string> permissions;
  std::optional<MachineKeys> machines = {};
  std::optional<LocalDate> until = {};
  std::optional<Session> session = {};  // a program has none
  bool needs_second_factor = false;     // and may nothing before it is set up

  bool is_program() const { return !session; }
  bool may(std::string_view permission) const;
  bool reaches(std::string_view machine) const;
};

struct AccessBook {
  // Refuses what reading the store refuses.
  static Result<std::unique_ptr<AccessBook>> open(Store& store, const Zone& zone, access::Randomness random,
                                                  access::PermissionTable table);

  AccessBook(Store& kept_in, const Zone& plant_zone, access::Randomness randomness, access::PermissionTable all)
      : store(kept_in), zone(plant_zone), random(std::move(randomness)), table(std::move(all)) {}

  // In one transaction; then in memory.
  Result<void> keep(const AccessRows& rows);
  // 32 random bytes as base64url.
  std::string new_secret() const;
  std::string new_id(Instant now) const;
  // An account that goes on; nothing where it has ended, or its last day is over.
  Account* account(std::string_view name, Instant now);
  bool goes_on(const Session& session, Instant now);
  // Who asks with that session of the account.
  Caller caller(const Account& account, const Session& session) const;
  // Whether the plant demands a second factor of the account that it has not. Only of who has a password: a PIN is for
  // devices that have joined, which are a second factor by themselves.
  bool lacks_second_factor(const Account& account) const;
  // Takes what the command line left for that secret; nothing where it left nothing, or it is over.
  Result<void> take_grant(const std::string& secret_hash, Instant now);

  Store& store;
  Zone zone;
  access::Randomness random;
  access::PermissionTable table;

  std::mutex mutex;
  std::map<std::string, Account, std::less<>> accounts;  // by name
  std::map<std::string, Link, std::less<>> links;        // by the secret's hash, as are the next two
  std::map<std::string, Session, std::less<>> sessions;
  std::map<std::string, Token, std::less<>> tokens;
  bool demands_second_factor = false;                // of office roles
  std::map<std::string, std::string> factors_begun;  // keys that no code was given back of, by account
  access::Tries at_places{{}};                       // a name from one address, a name at one device
  access::Tries at_names{{20, Duration::seconds(1), Duration::seconds(30)}};  // a name from everywhere
  std::atomic<int> hashing = 0;                                               // passwords that are looked at now
};

// When it ends if nothing comes of it before.
Instant end_of(const Session& session);

std::string hash_of_secret(std::string_view secret);

// Whose session or token it is, while it is good; notes that it was seen.
std::optional<Caller> recognise_session(AccessBook& book, std::string_view secret, Instant now);
std::optional<Caller> recognise_token(AccessBook& book, std::string_view secret, Instant now);

}  // namespace hw::service
