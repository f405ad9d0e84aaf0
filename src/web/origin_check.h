#pragma once
// What a page of another site must not do with this server through the browser of someone who visits it. The server
// answers at its own names only, so that a foreign name that is made to point at it (DNS rebinding) gets nothing; and
// changes come from the server's own pages or from programs.

#include <optional>
#include <string>

#include "libs/http/message.h"
#include "src/web/reach.h"

namespace hw::web {

// The Host of a request, with its port; empty where there is none.
std::string_view host_of(const http::Request& request);
// "localhost" of "localhost:8470", "[::1]" of "[::1]:8470"; the whole where what follows the colon is no port.
std::string_view without_port(std::string_view host);

// Whether it is 127.0.0.1, [::1] or localhost.
bool is_name_of_this_computer(std::string_view name);

// Whether the request comes from this computer and was meant for it: the peer's address is a loopback one, and the Host
// is 127.0.0.1, [::1], localhost or a name below that, with any port. A loopback peer that asks for another name may be
// somebody else, whom a program on this computer passes on.
bool is_this_computer(const http::Request& request);

// Refuses 421 a Host that is neither this computer's (is_this_computer) nor a name by which other devices reach the
// server, with any port; of requests other than GET, HEAD and OPTIONS also 403 an Origin that is not http:// (https://
// over TLS) and that Host.
std::optional<http::Response> check_origin(const http::Request& request, const Reach& reach);

// Refuses 415, of requests other than GET, HEAD and OPTIONS, a body that is not application/json (or, of a photo that
// is put, one of the three kinds of photo; of a sheet that is read in, application/octet-stream), which a browser sends
// to another site without asking first. Who is not let in is told so first.
std::optional<http::Response> check_body_type(const http::Request& request);

// What the request says that its body is: "image/png" of "Image/PNG ; q=1"; empty where it says nothing.
std::string media_type_of(const http::Request& request);

}  // namespace hw::web
