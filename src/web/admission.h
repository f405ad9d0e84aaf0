#pragma once
// Who is let in to what. Everything is closed but what the contract's table opens to everybody, and the app's files, in
// which there is nothing of the shop.

#include <optional>

#include "libs/http/router.h"
#include "src/service/access_book.h"
#include "src/service/devices.h"
#include "src/service/open_shop.h"
#include "src/web/access_table.h"

namespace hw::web {

// The device that sent the request, while it may.
std::optional<service::DeviceView> device_of(const http::Request& request, service::Devices& devices, Instant now);

// Who sent it: by Authorization: Bearer (RFC 6750) a program, else by the session's cookie a person. A token that is no
// good is nobody, whatever cookie comes with it; so is a session that began at a device which is not the one that
// asks, or may no longer.
struct Doors {
  service::AccessBook& book;
  service::Devices& devices;
};
std::optional<service::Caller> caller_of(const http::Request& request, const Doors& doors, Instant now);

struct AdmissionParts {
  Doors doors;
  service::OpenShop& shop;
  const AccessTable& table;
};

// Refuses 401 (not-signed-in) where nobody is known, 403 (not-allowed, second-factor-needed, not-your-machine) what the
// caller may not, 409 (kept-at-edge) what would change a record that is kept elsewhere; else notes in the request who
// asks. What may be watched is also answered to this computer.
std::optional<http::Response> check_admission(const AdmissionParts& parts, const http::Route& route,
                                              http::Request& request, Instant now);

}  // namespace hw::web
