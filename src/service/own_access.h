#pragma once
// What somebody who has signed in changes about signing in. Each asks for the present password (or, where it says so,
// the PIN) once more, so that a desk that was left is not enough.

#include "src/service/access_book.h"
#include "src/service/access_edits.h"
#include "src/service/access_views.h"

namespace hw::service {

// The person's own sessions that go on, the latest first. `titles` are those of the devices, by id.
SessionsView show_sessions(AccessBook& book, const Session& present, const std::map<std::string, std::string>& titles,
                           Instant now);
// Once more changes nothing. Refuses not_found: it is nobody's, or somebody else's.
Result<void> end_session(AccessBook& book, const Session& present, std::string_view id, Instant now);
Result<void> end_other_sessions(AccessBook& book, const Session& present, Instant now);

// The other sessions end. Refuses not_signed_in (wrong-sign-in), too_often, and what access::check_password refuses.
Result<void> change_password(AccessBook& book, const Session& present, const PasswordEdit& edit,
                             const std::vector<std::string>& words, Instant now);
Result<void> change_pin(AccessBook& book, const Session& present, const PinEdit& edit, Instant now);

// A new key for a second factor, as bytes; it counts once set_second_factor had a code of it.
Result<std::string> begin_second_factor(AccessBook& book, const Session& present, const NowEdit& edit, Instant now);
// Refuses conflict (none was begun), not_signed_in (wrong-code).
Result<void> set_second_factor(AccessBook& book, const Session& present, const CodeEdit& edit, Instant now);
Result<void> end_second_factor(AccessBook& book, const Session& present, const NowEdit& edit, Instant now);

}  // namespace hw::service
