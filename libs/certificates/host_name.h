#pragma once
// A name or an address by which other devices reach a server: what a certificate is made out for.

#include <compare>
#include <string>
#include <string_view>

#include "libs/values/result.h"

namespace hw::certificates {

struct HostName {
  enum class Kind { name, address };
  Kind kind = Kind::name;
  std::string text;  // names in lower case; addresses in their usual short form, IPv6 without brackets
  auto operator<=>(const HostName&) const = default;
};

// A DNS name (RFC 1123: letters, digits, hyphens; one label will do) or an IPv4 or IPv6 address (in brackets or
// without). Refuses (bad_input) anything else, wildcards too, and whatever leads each device to itself (localhost,
// 127.0.0.0/8, ::1) or nowhere (0.0.0.0, ::): a certificate for that would vouch for the wrong computer.
Result<HostName> parse_host_name(std::string_view text);

// As it stands in an address: IPv6 in brackets.
std::string print_in_url(const HostName& name);

// The bytes of an address: 4 or 16.
std::string bytes_of_address(const HostName& address);
// The address of 4 or 16 bytes.
HostName address_of_bytes(std::string_view bytes);

}  // namespace hw::certificates
