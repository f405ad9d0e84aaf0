#include "src/service/checked_secret.h"

#include <cmath>

#include "libs/values/secret.h"

namespace hw::service {

HashingTurn::HashingTurn(AccessBook& book) : book_(book), has_turn_(++book.hashing <= hashing_max) {}

HashingTurn::~HashingTurn() { --book_.hashing; }

tl::unexpected<Error> refuse_for(Duration wait) {
  const double seconds = std::ceil(wait.as_seconds());
  return refuse(ErrorCode::too_often, Saying{"try-later", {}, {{"seconds", seconds}}},
                "too many wrong tries; the next one counts in {:.0f} s", seconds);
}

tl::unexpected<Error> refuse_busy() { return refuse_for(Duration::seconds(1)); }

std::string factor_key_of(const Account& account) { return parse_base64url(account.factor_key.value_or("")); }

}  // namespace hw::service
