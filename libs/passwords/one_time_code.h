#pragma once
// Codes that change every 30 seconds, as an app on a phone shows them: TOTP (RFC 6238) over HOTP (RFC 4226) with
// HMAC-SHA-1 and 6 digits, the form that every such app knows.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "libs/values/instant.h"

namespace hw::passwords {

// Which 30 seconds since 1970.
std::int64_t code_step(Instant now);

// The code of a step: `digits` decimal digits, 6 to 8, with zeros in front. `key` is the shared secret's bytes.
std::string code_of(std::string_view key, std::int64_t step, int digits = 6);

// The step whose code this is: the present one, or the one before or after, for clocks that differ by up to half a
// minute; later than `after`, so that a code counts once. Nothing where none is.
std::optional<std::int64_t> step_of_code(std::string_view key, std::string_view code, Instant now, std::int64_t after);

// Letters A to Z and digits 2 to 7 (RFC 4648, section 6), without padding: as people type it and apps take it.
std::string print_base32(std::string_view bytes);

}  // namespace hw::passwords
