#include "src/web/reach.h"

#include <algorithm>

namespace hw::web {
namespace {

using certificates::HostName;

// The scheme's own port is left out.
std::string plain_address(const HostName& name, std::uint16_t port) {
  return "http://" + print_in_url(name) + (port == 80 ? "" : fmt::format(":{}", port));
}
std::string tls_address(const HostName& name, std::uint16_t port) {
  return "https://" + print_in_url(name) + (port == 443 ? "" : fmt::format(":{}", port));
}

bool holds(const std::vector<HostName>& names, const HostName& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace

void Reach::set_lines(const Lines& lines) {
  const std::lock_guard lock(mutex_);
  lines_ = lines;
}

Lines Reach::lines() const {
  const std::lock_guard lock(mutex_);
  return lines_;
}

void Reach::set_served(const certificates::Served& served) {
  const std::lock_guard lock(mutex_);
  served_ = served;
}

std::vector<HostName> Reach::names_now() const {
  std::vector<HostName> names = said_;
  if (!served_) return names;
  for (const HostName& name : served_->certificate.names) {
    if (!holds(names, name)) names.push_back(name);
  }
  return names;
}

std::vector<HostName> Reach::names() const {
  const std::lock_guard lock(mutex_);
  return names_now();
}

bool Reach::has(std::string_view host) const {
  const auto name = certificates::parse_host_name(host);
  return name && holds(names(), *name);
}

std::optional<certificates::Served> Reach::served() const {
  const std::lock_guard lock(mutex_);
  return served_;
}

std::vector<std::string> Reach::addresses() const {
  const std::lock_guard lock(mutex_);
  std::vector<std::string> all;
  const auto names = names_now();
  if (lines_.tls_port != 0) {
    for (const HostName& name : names) {
      if (served_ && holds(served_->certificate.names, name)) all.push_back(tls_address(name, lines_.tls_port));
    }
  }
  if (lines_.plain_port != 0) {
    for (const HostName& name : names) all.push_back(plain_address(name, lines_.plain_port));
  }
  return all;
}

std::string Reach::first_address() const {
  const auto all = addresses();
  const auto plain = std::find_if(all.begin(), all.end(), [](const auto& one) { return one.starts_with("http://"); });
  const auto now = served();
  const bool needs_authority = now && now->authority;
  if (needs_authority && plain != all.end()) return *plain;
  return all.empty() ? "" : all.front();
}

}  // namespace hw::web
