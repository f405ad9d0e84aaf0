#pragma once
// Who may come in, as a lead decides.

#include "src/service/access_book.h"
#include "src/service/access_edits.h"
#include "src/service/access_views.h"

namespace hw::service {

// A link with its secret, which is nowhere else.
struct NewLink {
  LinkView link;
  std::string secret;
};

// By name; those that ended too.
AccountsView show_accounts(AccessBook& book, Instant now);

// Refuses bad_input (the name; outside service without machines and last day, others with machines), conflict
// (account-there). Of an account that ended a new one is made. `machines` are the keys that there are.
Result<NewLink> make_account(AccessBook& book, const AccountEdit& edit, const MachineKeys& machines,
                             const std::string& by, Instant now);
// Refuses as make_account does, not_found (no-account), conflict (last-lead).
Result<void> change_account(AccessBook& book, const AccountEdit& edit, const MachineKeys& machines,
                            const std::string& by, Instant now);
// Its sessions and links end with it. Refuses not_found (no-account), conflict (last-lead).
Result<void> end_account(AccessBook& book, const NameEdit& edit, const std::string& by, Instant now);
// The links before are void. Refuses not_found (no-account).
Result<NewLink> make_link(AccessBook& book, const NameEdit& edit, const std::string& by, Instant now);
Result<void> end_sessions_of(AccessBook& book, const NameEdit& edit, const std::string& by, Instant now);

// Whether a second factor is demanded of office roles: whoever of them has a password and no second factor may from now
// on nothing but set it up. Once more changes nothing. Refuses conflict (own-second-factor) where `by` would demand it
// and has none.
Result<void> rule_second_factor(AccessBook& book, const SecondFactorRule& edit, const std::string& by, Instant now);

// Refuses outside service without a machine; machines that are not there.
Result<void> check_machines(access::Role role, const std::optional<MachineKeys>& limited_to,
                            const MachineKeys& machines);

}  // namespace hw::service
