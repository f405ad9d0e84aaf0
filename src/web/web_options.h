#pragma once
// Where the server listens and what it is called, as it is said on the command line.

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "libs/certificates/tls_folder.h"

namespace hw::web {

struct Endpoint {
  std::string address = "127.0.0.1";
  std::uint16_t port = 8470;  // 0: any that is free
};

struct TlsOptions {
  Endpoint endpoint;
  certificates::TlsFolder folder;
  Duration look_every = Duration::seconds(3);  // whether there is another certificate
};

struct WebOptions {
  Endpoint plain;
  std::optional<TlsOptions> tls;
  std::vector<certificates::HostName> names;  // by which other devices reach the server, besides the certificate's
  std::filesystem::path share;                // holds app/dist and api/openapi.yaml
};

// The words of the command line.
struct ListenWords {
  std::string listen;
  std::optional<std::string> listen_tls;
  std::vector<std::string> names;
};

// Refuses (wrong_usage) what does not look like "127.0.0.1:8470", "[::1]:8470" or ":8470", what is no name, and an
// address for other devices without a name by which they reach it: with --listen-tls the certificate has some.
Result<WebOptions> parse_options(const ListenWords& words, const certificates::TlsFolder& folder);

// Whether other devices can reach the address at all.
bool is_for_others(const Endpoint& endpoint);

}  // namespace hw::web
