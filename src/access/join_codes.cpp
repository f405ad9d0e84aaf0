#include "src/access/join_codes.h"

#include <algorithm>

namespace hw::access {
namespace {

// Upper case, without blanks and hyphens.
std::string as_made(std::string_view typed) {
  std::string out;
  for (const char c : typed) {
    if (c == ' ' || c == '-') continue;
    out += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  }
  return out;
}

int whole_seconds(Duration duration) { return static_cast<int>((duration.ns + 999'999'999) / 1'000'000'000); }

}  // namespace

// Each sign is as likely as the others: bytes beyond the last whole multiple of their number are left out.
std::string JoinCodes::new_code() const {
  const std::size_t fair = 256 / code_signs.size() * code_signs.size();
  std::string code;
  while (code.size() < code_length) {
    for (const char c : random_(2 * code_length)) {
      const auto byte = static_cast<unsigned char>(c);
      if (byte < fair && code.size() < code_length) code += code_signs[byte % code_signs.size()];
    }
  }
  return code;
}

// Also what is from the future, since the clock was set back: a code would last for longer than it may, and wrong tries
// would keep everybody out. A step of a few seconds, as a clock that is kept right takes now and then, ends no code.
void JoinCodes::forget_old(Instant now) {
  constexpr Duration clock_step = Duration::seconds(10);
  std::erase_if(codes_, [&](const JoinCode& code) {
    return code.valid_until <= now || code.valid_until > now + code_life + clock_step;
  });
  std::erase_if(wrong_tries_, [&](Instant at) { return at + wrong_tries_within <= now || at > now + clock_step; });
}

Result<JoinCode> JoinCodes::offer(const Offer& offer, Instant now) {
  forget_old(now);
  for (const JoinCode& code : codes_) {
    if (code.id == offer.id) return code;
  }
  if (codes_.size() >= codes_max) {
    return refuse(ErrorCode::too_often, "{} codes are out; the next one can be made in {} s", codes_max,
                  whole_seconds(codes_.front().valid_until - now));
  }
  codes_.push_back({offer.id, new_code(), offer.by, now + code_life, {}});
  return codes_.back();
}

Result<JoinCode> JoinCodes::find(std::string_view typed, Instant now) {
  forget_old(now);
  if (wrong_tries_.size() >= wrong_tries_max) {
    return refuse(ErrorCode::too_often, "wrong codes were tried too often; try again in {} s",
                  whole_seconds(wrong_tries_.front() + wrong_tries_within - now));
  }
  const std::string wanted = as_made(typed);
  for (const JoinCode& code : codes_) {
    if (code.code == wanted) return code;
  }
  wrong_tries_.push_back(now);
  return refuse(ErrorCode::not_found,
                "code: \"{}\" is not valid, or no longer; a code lasts 15 minutes and lets one device join. Make a new "
                "one at the desk",
                typed.substr(0, 20));
}

void JoinCodes::mark_used(std::string_view code, const JoinCode::Use& use) {
  for (JoinCode& one : codes_) {
    if (one.code == code) one.use = use;
  }
}

}  // namespace hw::access
