#pragma once
// What the browser keeps and sends with each request (RFC 6265). No page reads it (HttpOnly), it goes to this server's
// own pages' requests only (SameSite=Strict), and over an encrypted line only where it came over one.

#include <string>
#include <string_view>

#include "libs/http/message.h"
#include "src/service/devices.h"

namespace hw::web {

inline constexpr std::string_view device_cookie_name = "hourwright_device";
inline constexpr std::string_view session_cookie_name = "hourwright_session";

// What the request sends of that name; empty where it sends nothing.
std::string_view cookie_of(const http::Request& request, std::string_view name);

// Of a device: for 400 days from the last visit.
std::string device_cookie(std::string_view secret, service::Line line);
// Of a session: until the browser ends; the server ends it earlier. With an empty secret: the browser forgets it.
std::string session_cookie(std::string_view secret, service::Line line);

// The line that the request came over.
service::Line line_of(const http::Request& request);

}  // namespace hw::web
