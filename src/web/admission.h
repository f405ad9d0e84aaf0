#pragma once
// Who is let in. Until there is sign-in: this computer, and devices that have joined. Everybody else gets what a device
// needs to join, and the app's files, in which there is nothing of the shop.

#include <optional>
#include <string_view>

#include "libs/http/message.h"
#include "src/service/devices.h"

namespace hw::web {

// The device that sent the request, while it may.
std::optional<service::DeviceView> device_of(const http::Request& request, service::Devices& devices, Instant now);

// What it sends to be known by; empty where it sends nothing.
std::string_view secret_of(const http::Request& request);

// What the browser keeps for the device and sends with each request: nobody reads it on a page, it goes to this
// server's own pages' requests only, over an encrypted line only where it came over one, for 400 days from the last
// visit.
std::string device_cookie(std::string_view secret, service::Line line);

// Refuses (401, not-joined) what is neither open to everybody nor from this computer or a device that has joined.
std::optional<http::Response> check_admission(const http::Request& request, service::Devices& devices, Instant now);

}  // namespace hw::web
