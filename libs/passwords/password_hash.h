#pragma once
// Passwords and PINs as they are kept: by argon2id (RFC 9106), so that whoever has the file still has to try each
// guess at a price.

#include <string>
#include <string_view>

namespace hw::passwords {

// What one hash costs: 19 MiB and two passes, one lane; the least that the OWASP Password Storage Cheat Sheet names
// for argon2id (read from memory). It bounds what a server with little memory spends on somebody who tries.
inline constexpr std::size_t hash_bytes = 19 * 1024 * 1024;
inline constexpr unsigned hash_passes = 2;

// "$argon2id$v=19$m=19456,t=2,p=1$SALT$HASH" with a random salt of 16 bytes; another one each time. Takes as much
// memory as hash_bytes; throws std::bad_alloc where there is none.
std::string hash_password(std::string_view password);

// Whether it is the password of a hash of hash_password (or of another argon2id hash in that form). False for what is
// no such hash.
bool is_password_of(std::string_view hash, std::string_view password);

// A hash that no password fits, to spend the same time where there is nothing to compare with.
const std::string& hash_of_nobody();

}  // namespace hw::passwords
