#include "src/web/web_options.h"

#include <charconv>

namespace hw::web {
namespace {

struct Said {
  std::string_view option;
  std::string_view text;
};

Result<Endpoint> parse_endpoint(const Said& said) {
  Endpoint endpoint;
  const auto colon = said.text.rfind(':');
  const std::string_view port = colon == std::string_view::npos ? "" : said.text.substr(colon + 1);
  const auto [end, error] = std::from_chars(port.data(), port.data() + port.size(), endpoint.port);
  if (port.empty() || error != std::errc{} || end != port.data() + port.size()) {
    return refuse(ErrorCode::wrong_usage, "{} {}: it looks like 127.0.0.1:8470", said.option, said.text.substr(0, 60));
  }
  std::string_view address = said.text.substr(0, colon);
  if (address.starts_with('[') && address.ends_with(']')) address = address.substr(1, address.size() - 2);
  if (!address.empty()) endpoint.address = address == "localhost" ? "127.0.0.1" : address;
  return endpoint;
}

Result<std::vector<certificates::HostName>> parse_names(const std::vector<std::string>& texts) {
  std::vector<certificates::HostName> names;
  for (const std::string& text : texts) {
    auto name = certificates::parse_host_name(text);
    if (!name) return refuse(Error{ErrorCode::wrong_usage, name.error().message}.at("--name"));
    names.push_back(std::move(*name));
  }
  return names;
}

// An address of one line of the computer is a name by itself; one that stands for all of them is none.
void add_own_name(std::vector<certificates::HostName>& names, const Endpoint& endpoint) {
  if (!is_for_others(endpoint)) return;
  if (auto name = certificates::parse_host_name(endpoint.address)) names.push_back(std::move(*name));
}

}  // namespace

bool is_for_others(const Endpoint& endpoint) {
  return endpoint.address != "::1" && !endpoint.address.starts_with("127.");
}

Result<WebOptions> parse_options(const ListenWords& words, const certificates::TlsFolder& folder) {
  WebOptions options;
  HW_TAKE(plain, parse_endpoint({"--listen", words.listen}));
  options.plain = std::move(plain);
  if (words.listen_tls) {
    HW_TAKE(endpoint, parse_endpoint({"--listen-tls", *words.listen_tls}));
    options.tls = TlsOptions{std::move(endpoint), folder};
  }
  HW_TAKE(names, parse_names(words.names));
  options.names = std::move(names);
  add_own_name(options.names, options.plain);
  if (options.tls) add_own_name(options.names, options.tls->endpoint);
  if (is_for_others(options.plain) && options.names.empty() && !options.tls) {
    return refuse(
        ErrorCode::wrong_usage,
        "--listen {}: say with --name by which name or address phones reach this computer; the server answers "
        "at no other",
        words.listen.substr(0, 60));
  }
  return options;
}

}  // namespace hw::web
