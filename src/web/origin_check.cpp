#include "src/web/origin_check.h"

#include <algorithm>
#include <array>
#include <cctype>

#include <fmt/format.h>

#include "libs/http/problem.h"
#include "src/service/photo_type.h"

namespace hw::web {
namespace {

constexpr std::string_view sheet_path = "/api/stores/sheet", sheet_path_begin = "/api/stores/sheet/";
constexpr std::array<std::string_view, 3> own_names{"127.0.0.1", "[::1]", "localhost"};
constexpr std::string_view below_own = ".localhost";

// Names below localhost are this computer's too, and no name server gives them to anybody (RFC 6761, section 6.3).
bool is_own_name(std::string_view host) {
  const std::string_view name = without_port(host);
  if (name.size() > below_own.size() && http::same_name(name.substr(name.size() - below_own.size()), below_own)) {
    return true;
  }
  return is_name_of_this_computer(name);
}

// IPv4 addresses that came over an IPv6 socket begin with ::ffff: (RFC 4291).
bool is_loopback(std::string_view address) {
  constexpr std::string_view mapped = "::ffff:";
  if (address.starts_with(mapped)) address.remove_prefix(mapped.size());
  return address == "::1" || address.starts_with("127.");
}

bool changes(const http::Request& request) {
  return request.method != "GET" && request.method != "HEAD" && request.method != "OPTIONS";
}

// A photo is a PUT, which a browser asks about before it sends one to another site, whatever it holds.
bool is_photo(const http::Request& request) {
  return request.method == "PUT" && request.path.starts_with("/api/photos/");
}

// A sheet is bytes of any kind, which a browser asks about before it sends them to another site.
bool is_sheet(const http::Request& request) {
  return request.method == "POST" && (request.path == sheet_path || request.path.starts_with(sheet_path_begin));
}

bool is_shipment(const http::Request& request) {
  return request.method == "PUT" && request.path.starts_with("/api/edge/shipments/");
}

std::string answers_at(const Reach& reach) {
  std::string names;
  for (const auto& name : reach.names()) names += ", " + print_in_url(name);
  return "on its own computer at 127.0.0.1, [::1] and localhost" +
         (names.empty() ? "" : "; for others at" + names.substr(1));
}

}  // namespace

std::string_view host_of(const http::Request& request) { return request.headers.find("Host").value_or(""); }

std::string_view without_port(std::string_view host) {
  const auto colon = host.rfind(':');
  if (colon == std::string_view::npos) return host;
  const std::string_view port = host.substr(colon + 1);
  const bool is_port = std::all_of(port.begin(), port.end(), [](char c) { return c >= '0' && c <= '9'; });
  return is_port ? host.substr(0, colon) : host;
}

bool is_name_of_this_computer(std::string_view name) {
  return std::any_of(own_names.begin(), own_names.end(), [&](auto own) { return http::same_name(name, own); });
}

std::string media_type_of(const http::Request& request) {
  const std::string_view field = request.headers.find("Content-Type").value_or("");
  std::string type{field.substr(0, field.find(';'))};
  while (type.ends_with(' ') || type.ends_with('\t')) type.pop_back();
  for (char& c : type) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return type;
}

bool is_this_computer(const http::Request& request) {
  return is_loopback(request.remote_address) && is_own_name(host_of(request));
}

std::optional<http::Response> check_origin(const http::Request& request, const Reach& reach) {
  const std::string_view host = host_of(request);
  if (!is_this_computer(request) && !reach.has(without_port(host))) {
    return http::problem(421, fmt::format("\"{}\" is not this server, which answers {}; serve --name adds a name",
                                          host.substr(0, 60), answers_at(reach)));
  }
  if (!changes(request)) return std::nullopt;
  const auto origin = request.headers.find("Origin");
  if (origin && !http::same_name(*origin, fmt::format("{}://{}", request.is_tls ? "https" : "http", host))) {
    return http::problem(403, fmt::format("a page of {} cannot change anything here", origin->substr(0, 60)));
  }
  return std::nullopt;
}

std::optional<http::Response> check_body_type(const http::Request& request) {
  if (!changes(request)) return std::nullopt;
  const std::string type = media_type_of(request);
  if (is_photo(request)) {
    if (service::is_photo_type(type)) return std::nullopt;
    return http::problem(415, "Content-Type: of a photo it is image/jpeg, image/png or image/webp");
  }
  if (is_sheet(request) || is_shipment(request)) {
    if (type == "application/octet-stream") return std::nullopt;
    return http::problem(415, "Content-Type: of a sheet or a shipment it is application/octet-stream");
  }
  if (type == "application/json") return std::nullopt;
  return http::problem(415, "Content-Type: it is application/json");
}

}  // namespace hw::web
