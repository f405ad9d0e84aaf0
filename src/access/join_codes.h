#pragma once
// Codes that let one device join: short enough to be typed, good for a quarter of an hour and for one device. They are
// kept in memory only; a restart voids them.
//
// A code has 8 signs of 21, about 3.8e10 possibilities. Wrong ones are taken 10 times a minute over all devices, so
// that guessing one of ten that are out takes some 700 years on average. Whoever wants to keep others from joining can
// use up these tries: for that he must be in the shop's network, and it is seen.

#include <deque>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "libs/values/instant.h"
#include "libs/values/result.h"

namespace hw::access {

// Random bytes, as many as are asked for.
using Randomness = std::function<std::string(std::size_t)>;

inline constexpr std::size_t code_length = 8;
// Without signs that are taken for one another when they are read or spoken: 0 O Q, 1 I L, 2 Z, 5 S, 8 B, 6 G, U V.
inline constexpr std::string_view code_signs = "34679ACDEFHJKMNPRTWXY";
inline constexpr Duration code_life = Duration::seconds(15 * 60);
inline constexpr std::size_t wrong_tries_max = 10;
inline constexpr Duration wrong_tries_within = Duration::seconds(60);
inline constexpr std::size_t codes_max = 100;  // that are out at once

struct JoinCode {
  std::string id;    // made by the client: the same id again is the same code
  std::string code;  // 8 signs
  std::string by;    // the person who let a device join
  Instant valid_until;
  // The device that joined by it, with its secret: when the answer was lost, the same device may ask again.
  struct Use {
    std::string device;
    std::string secret;
  };
  std::optional<Use> use;
};

// Not safe for several threads at once.
class JoinCodes {
 public:
  explicit JoinCodes(Randomness random) : random_(std::move(random)) {}

  struct Offer {
    std::string id;
    std::string by;
  };
  // Refuses (too_often) while codes_max are out.
  Result<JoinCode> offer(const Offer& offer, Instant now);

  // The code as it was typed: letter case, blanks and hyphens do not matter. Refuses: not_found (there is none, or it
  // is no longer valid), too_often (wrong ones were tried too often; the sentence says for how long).
  Result<JoinCode> find(std::string_view typed, Instant now);

  // From now on the code is good for this device only.
  void mark_used(std::string_view code, const JoinCode::Use& use);

 private:
  void forget_old(Instant now);
  std::string new_code() const;

  Randomness random_;
  std::vector<JoinCode> codes_;
  std::deque<Instant> wrong_tries_;
};

}  // namespace hw::access
