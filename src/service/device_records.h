#pragma once
// Devices that have joined, as they are kept: a row when it joins, a row when it may no longer; neither is ever
// changed.

#include <optional>
#include <string>

#include "libs/values/instant.h"
#include "libs/values/local_date.h"

namespace hw::service {

struct Device {
  std::string id;  // UUIDv7, made by the device
  std::string title;
  std::string secret_hash;  // SHA-256 of what the device sends with each request, 64 hexadecimal digits
  std::string enrolled_by;  // who let it join
  Instant enrolled_at;
  bool is_over_tls = false;               // it joined over an encrypted line
  std::optional<LocalDate> last_seen_on;  // the plant's day
  std::optional<Instant> ended_at;        // from when on it may no longer
  std::optional<std::string> ended_by;
};

struct DeviceEnd {
  std::string id;
  std::string device;
  std::string by;
  Instant at;
};

}  // namespace hw::service
