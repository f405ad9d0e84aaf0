#pragma once
// Addresses of message brokers:
//
//   url   = ("mqtt" / "mqtts") "://" [user "@"] host [":" port] ["/" name] ["?" setting *("&" setting)]
//   setting = "password_file=" path / "ca_file=" path / "version=" ("5" / "3.1.1")
//
// The name is one segment of letters, digits, '-', '_' and '.'; what it names is the caller's. A password never stands
// in an address: it is the first line of a file.

#include <cstdint>
#include <string>
#include <string_view>

#include "libs/values/result.h"

namespace hw::mqtt {

enum class Version : std::uint8_t { v3_1_1, v5 };

struct BrokerUrl {
  bool is_secure = false;  // mqtts: TLS
  std::string host;        // without brackets
  std::uint16_t port = 1883;
  std::string name;           // empty: none
  std::string user;           // empty: none is said
  std::string password_file;  // empty: no password
  std::string ca_file;        // mqtts: certificates to trust instead of the system's; empty: the system's
  Version version = Version::v5;
  bool operator==(const BrokerUrl&) const = default;

  // "mqtt://10.0.0.7:1883": what messages call the broker.
  std::string broker() const;
};

// The scheme is that of a broker, whatever follows it.
bool is_broker_url(std::string_view text);

// Refuses (bad_input) other schemes, a password in the address, unknown settings and versions, a ca_file without TLS,
// and what http::parse_url refuses. The port is 1883 where none is said, with TLS 8883.
Result<BrokerUrl> parse_broker_url(std::string_view text);

}  // namespace hw::mqtt
