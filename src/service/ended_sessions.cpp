#include "src/service/ended_sessions.h"

#include "src/service/entry_making.h"

namespace hw::service {

std::vector<Session> ended_sessions(AccessBook& book, std::string_view name, Instant now, std::string_view but) {
  std::vector<Session> ended;
  for (const auto& [hash, session] : book.sessions) {
    if (session.account != name || session.id == but || !book.goes_on(session, now)) continue;
    ended.push_back(session);
    ended.back().ended_at = as_kept(now);
  }
  return ended;
}

}  // namespace hw::service
