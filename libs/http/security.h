#pragma once
// The one place for headers that bind the browser. The server adds them to every response.

#include "libs/http/headers.h"

namespace hw::http {

// Content-Security-Policy (own scripts, styles and connections only; nothing inline; never in a frame),
// X-Content-Type-Options, Referrer-Policy, Cross-Origin-Opener-Policy and Cross-Origin-Resource-Policy, each unless it
// is already set.
void add_security_headers(Headers& headers);

}  // namespace hw::http
