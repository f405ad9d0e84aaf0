#pragma once
// How other devices reach this server: by which names, on which lines, under which authority's certificate.

#include <cstdint>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "libs/certificates/tls_folder.h"

namespace hw::web {

// A listener as other devices see it; port 0: they do not.
struct Lines {
  std::uint16_t plain_port = 0;
  std::uint16_t tls_port = 0;
};

// Safe for several threads at once.
class Reach {
 public:
  explicit Reach(std::vector<certificates::HostName> said) : said_(std::move(said)) {}

  // The lines that are open to other devices, once they are known.
  void set_lines(const Lines& lines);
  Lines lines() const;
  // What the TLS line serves now; its names count as the server's own.
  void set_served(const certificates::Served& served);

  // Those that were said first, then the certificate's.
  std::vector<certificates::HostName> names() const;
  // Whether the host of a request (without its port) is one of them, in whatever spelling.
  bool has(std::string_view host) const;

  // What is served over TLS; nothing where there is no such line.
  std::optional<certificates::Served> served() const;
  // "https://shop.example:8471", "http://shop.example:8470": for each name, the encrypted ones first. Empty while only
  // this computer can reach the server.
  std::vector<std::string> addresses() const;
  // Where a device begins: unencrypted where it has to get the authority's certificate first, else encrypted. Empty
  // while only this computer can reach the server.
  std::string first_address() const;

 private:
  std::vector<certificates::HostName> names_now() const;

  const std::vector<certificates::HostName> said_;
  mutable std::mutex mutex_;
  Lines lines_;
  std::optional<certificates::Served> served_;
};

}  // namespace hw::web
