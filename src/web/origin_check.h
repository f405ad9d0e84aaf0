#pragma once
// What a page of another site must not do with this server through the browser of someone who visits it. As long as
// there is no sign-in the server is reached at this computer's own names only, so that a foreign name that is made to
// point at it (DNS rebinding) gets nothing; and changes come from the server's own pages or from programs.

#include <optional>

#include "libs/http/message.h"

namespace hw::web {

// Refuses 421 a Host that is not 127.0.0.1, [::1] or localhost, with any port; of requests other than GET, HEAD and
// OPTIONS also 403 an Origin that is not http:// and that Host, and 415 a body that is not application/json, which a
// browser sends to another site without asking first.
std::optional<http::Response> check_origin(const http::Request& request);

}  // namespace hw::web
