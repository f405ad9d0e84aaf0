#pragma once
// A person's sessions as they end together.

#include "src/service/access_book.h"

namespace hw::service {

// All of that person's that go on, ended now, but for the one with the id `but`. The book is locked.
std::vector<Session> ended_sessions(AccessBook& book, std::string_view name, Instant now, std::string_view but = "");

}  // namespace hw::service
