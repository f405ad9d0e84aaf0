#pragma once
// Bytes that nobody can guess.

#include <cstddef>
#include <string>
#include <string_view>

namespace hw {

// Random bytes of the system's own source, fit for keys.
std::string secret_bytes(std::size_t count);

// base64url without padding (RFC 4648, section 5): letters, digits, '-' and '_'.
std::string print_base64url(std::string_view bytes);
// The bytes again; what does not belong there is passed over.
std::string parse_base64url(std::string_view text);

}  // namespace hw
