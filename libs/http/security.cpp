#include "libs/http/security.h"

namespace hw::http {
namespace {

// "data:" and "blob:" only for pictures: previews of photos that have not been sent yet.
constexpr const char* content_security_policy =
    "default-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; form-action 'self'; "
    "frame-ancestors 'none'";

void add_unless_set(Headers& headers, const char* name, const char* value) {
  if (!headers.find(name)) headers.add(name, value);
}

}  // namespace

void add_security_headers(Headers& headers) {
  add_unless_set(headers, "Content-Security-Policy", content_security_policy);
  add_unless_set(headers, "X-Content-Type-Options", "nosniff");
  add_unless_set(headers, "Referrer-Policy", "no-referrer");
  add_unless_set(headers, "Cross-Origin-Opener-Policy", "same-origin");
  add_unless_set(headers, "Cross-Origin-Resource-Policy", "same-origin");
}

}  // namespace hw::http
