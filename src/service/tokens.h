#pragma once
// What other programs come in with.

#include "src/service/access_book.h"
#include "src/service/access_edits.h"
#include "src/service/access_views.h"

namespace hw::service {

struct NewToken {
  TokenView token;
  std::string secret;  // nowhere else
};

// The latest first; those that ended too.
TokensView show_tokens(AccessBook& book);
// Refuses bad_input: the title, a permission that the role has not, the days (1 to 3660), machines as check_machines.
Result<NewToken> make_token(AccessBook& book, const TokenEdit& edit, const MachineKeys& machines, const std::string& by,
                            Instant now);
// Once more changes nothing. Refuses not_found.
Result<void> end_token(AccessBook& book, std::string_view id, const std::string& by, Instant now);

// Refuses (bad_input) a permission that the role has not, and admit, which no program has.
Result<void> check_permissions(const access::PermissionTable& table, access::Role role,
                               const std::optional<std::vector<std::string>>& permissions);

// The latest first.
Result<AccessNotesView> show_access_notes(AccessBook& book);

}  // namespace hw::service
