#include "libs/certificates/host_name.h"

#include <algorithm>
#include <array>
#include <optional>

#include <arpa/inet.h>

#include "libs/values/assert.h"

namespace hw::certificates {
namespace {

constexpr std::size_t name_max = 253;  // RFC 1035, as it is written
constexpr std::size_t label_max = 63;

std::optional<std::string> bytes_of(const std::string& text) {
  std::array<char, sizeof(in6_addr)> bytes{};
  if (::inet_pton(AF_INET, text.c_str(), bytes.data()) == 1) return std::string(bytes.data(), sizeof(in_addr));
  if (::inet_pton(AF_INET6, text.c_str(), bytes.data()) == 1) return std::string(bytes.data(), sizeof(in6_addr));
  return std::nullopt;
}

// Loopback, and the address that stands for all or none.
bool leads_to_itself(std::string_view bytes) {
  if (bytes.size() == sizeof(in_addr)) return bytes.front() == 127 || bytes == std::string_view("\0\0\0\0", 4);
  return std::all_of(bytes.begin(), bytes.end() - 1, [](char byte) { return byte == 0; }) && bytes.back() <= 1;
}

bool is_letter_or_digit(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); }

bool is_label(std::string_view label) {
  if (label.empty() || label.size() > label_max || label.front() == '-' || label.back() == '-') return false;
  return std::all_of(label.begin(), label.end(), [](char c) { return is_letter_or_digit(c) || c == '-'; });
}

// A last label of digits only would make the whole look like an address.
bool is_dns_name(std::string_view name) {
  if (name.size() > name_max) return false;
  std::string_view last;
  for (std::string_view rest = name;;) {
    const auto dot = rest.find('.');
    last = rest.substr(0, dot);
    if (!is_label(last)) return false;
    if (dot == std::string_view::npos) break;
    rest.remove_prefix(dot + 1);
  }
  return std::any_of(last.begin(), last.end(), [](char c) { return c < '0' || c > '9'; });
}

std::string lower(std::string_view text) {
  std::string out{text};
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

}  // namespace

Result<HostName> parse_host_name(std::string_view text) {
  std::string plain = lower(text);
  if (plain.size() > 2 && plain.front() == '[' && plain.back() == ']') plain = plain.substr(1, plain.size() - 2);
  const auto bytes = bytes_of(plain);
  const bool is_own = bytes ? leads_to_itself(*bytes) : plain == "localhost" || plain.ends_with(".localhost");
  if (is_own) {
    return refuse(ErrorCode::bad_input,
                  "\"{}\" leads every device to itself; right is the name or the address that "
                  "other devices have for this computer",
                  text.substr(0, 60));
  }
  if (bytes) return address_of_bytes(*bytes);
  if (is_dns_name(plain)) return HostName{HostName::Kind::name, plain};
  return refuse(ErrorCode::bad_input, "\"{}\" is neither a name nor an address; right is shop.example or 192.168.1.20",
                text.substr(0, 60));
}

std::string print_in_url(const HostName& name) {
  return name.text.find(':') == std::string::npos ? name.text : "[" + name.text + "]";
}

std::string bytes_of_address(const HostName& address) {
  const auto bytes = bytes_of(address.text);
  HW_ASSERT(address.kind == HostName::Kind::address && bytes, "an address is one");
  return *bytes;
}

HostName address_of_bytes(std::string_view bytes) {
  HW_ASSERT(bytes.size() == sizeof(in_addr) || bytes.size() == sizeof(in6_addr), "an address has 4 or 16 bytes");
  std::array<char, INET6_ADDRSTRLEN> text{};
  ::inet_ntop(bytes.size() == sizeof(in_addr) ? AF_INET : AF_INET6, bytes.data(), text.data(), text.size());
  return {HostName::Kind::address, text.data()};
}

}  // namespace hw::certificates
