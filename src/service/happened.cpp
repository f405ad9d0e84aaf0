#include "src/service/happened.h"

#include <algorithm>
#include <cstdint>
#include <cstdlib>

namespace hw::service {
namespace {

// All in milliseconds: the difference of two Instants may be longer than a Duration.
constexpr std::int64_t off_worth_saying = 60 * 1000;
constexpr std::int64_t ago_max = 60LL * 24 * 3600 * 1000;

}  // namespace

Happened happened(const DeviceTimes& device, const ServerTimes& server) {
  const std::int64_t now = server.now.as_millis();
  const std::int64_t off = device.sent_at ? device.sent_at->as_millis() - now : 0;
  Happened out{.at = Instant::from_millis(now), .device_off_s = {}};
  if (std::abs(off) >= off_worth_saying) out.device_off_s = static_cast<double>(off) / 1000;
  if (!device.at || (device.sent_at && *device.at > *device.sent_at)) return out;
  const std::int64_t at = device.at->as_millis() - off;
  if (at < now - ago_max || at < server.founded_at.as_millis()) return out;
  out.at = Instant::from_millis(std::min(at, now));
  return out;
}

}  // namespace hw::service
