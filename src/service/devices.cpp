#include "src/service/devices.h"

#include <algorithm>

#include "libs/sql/storage_failed.h"
#include "libs/values/secret.h"
#include "src/service/access_book.h"
#include "src/service/entry_making.h"
#include "src/service/title.h"

namespace hw::service {
namespace {

constexpr std::size_t secret_size = 32;

template <class Change>
Result<void> write(Store& store, const Change& change) {
  HW_TAKE(writing, store.begin());
  HW_TRY(change(*writing));
  return writing->commit();
}

}  // namespace

DeviceView view_of(const Device& device) {
  return {device.id,          device.title,        device.enrolled_at, device.enrolled_by,
          device.is_over_tls, device.last_seen_on, device.ended_at,    device.ended_by};
}

Devices::Devices(Store& store, const Zone& zone, access::Randomness random)
    : store_(store), zone_(zone), random_(std::move(random)), codes_(random_) {}

Result<std::unique_ptr<Devices>> Devices::open(Store& store, const Zone& zone, access::Randomness random) {
  std::unique_ptr<Devices> devices{new Devices(store, zone, std::move(random))};
  HW_TAKE(kept, store.devices());
  devices->devices_ = std::move(kept);
  for (std::size_t i = 0; i < devices->devices_.size(); ++i) {
    const Device& device = devices->devices_[i];
    if (!device.ended_at) devices->by_hash_[device.secret_hash] = i;
  }
  return devices;
}

Device* Devices::find(std::string_view id) {
  const auto found = std::find_if(devices_.begin(), devices_.end(), [&](const Device& one) { return one.id == id; });
  return found == devices_.end() ? nullptr : &*found;
}

Result<access::JoinCode> Devices::offer_code(const JoinCodeEdit& edit, Instant now) {
  HW_TRY(check_signature(edit.id, edit.by));
  const std::lock_guard lock(mutex_);
  return codes_.offer({edit.id, edit.by}, now);
}

// The answer to the first time was lost.
Result<Enrolled> Devices::enrol_again(const access::JoinCode& code, const DeviceEdit& edit) {
  const Device* const device = find(edit.id);
  if (code.use->device == edit.id && device) return Enrolled{view_of(*device), code.use->secret};
  return refuse(ErrorCode::conflict, "code: another device has joined by it; make a new one at the desk");
}

Result<Enrolled> Devices::enrol(const DeviceEdit& edit, Line line, Instant now) {
  HW_TRY(check_id("id", edit.id));
  HW_TRY(check_title("title", edit.title, "what this device is called: Phone at the lathes"));
  const std::lock_guard lock(mutex_);
  HW_TAKE(code, codes_.find(edit.code, now));
  if (code.use) return enrol_again(code, edit);
  if (find(edit.id)) return refuse(ErrorCode::conflict, "id: {} is another device's; an id is used once", edit.id);
  const std::string secret = print_base64url(random_(secret_size));
  Device device{.id = edit.id,
                .title = edit.title,
                .secret_hash = hash_of_secret(secret),
                .enrolled_by = code.by,
                .enrolled_at = as_kept(now),
                .is_over_tls = line == Line::encrypted,
                .last_seen_on = zone_.date_of(now),
                .ended_at = {},
                .ended_by = {}};
  HW_TRY(write(store_, [&](Writing& writing) { return writing.add_device(device); }));
  codes_.mark_used(code.code, {device.id, secret});
  by_hash_[device.secret_hash] = devices_.size();
  devices_.push_back(std::move(device));
  return Enrolled{view_of(devices_.back()), secret};
}

Result<DeviceView> Devices::end(std::string_view id, const Signature& signature, Instant now) {
  HW_TRY(check_signature(signature.id, signature.by));
  const std::lock_guard lock(mutex_);
  Device* const device = find(id);
  if (!device) return refuse(ErrorCode::not_found, "there is no device {}", id.substr(0, 40));
  if (device->ended_at) return view_of(*device);
  const DeviceEnd end{signature.id, device->id, signature.by, as_kept(now)};
  HW_TRY(write(store_, [&](Writing& writing) { return writing.end_device(end); }));
  device->ended_at = end.at;
  device->ended_by = end.by;
  by_hash_.erase(device->secret_hash);
  return view_of(*device);
}

// That it was seen is worth no refusal: a disk that is full is told where something is entered.
void Devices::note_seen(Device& device, LocalDate today) {
  if (device.last_seen_on && *device.last_seen_on >= today) return;
  device.last_seen_on = today;
  try {
    (void)write(store_, [&](Writing& writing) { return writing.see_device(device.id, today); });
  } catch (const sql::StorageFailed&) {
  }
}

std::optional<DeviceView> Devices::recognise(std::string_view secret, Instant now) {
  const std::string hash = hash_of_secret(secret);
  const std::lock_guard lock(mutex_);
  const auto found = by_hash_.find(hash);
  if (found == by_hash_.end()) return std::nullopt;
  Device& device = devices_[found->second];
  note_seen(device, zone_.date_of(now));
  return view_of(device);
}

DevicesView Devices::show() const {
  const std::lock_guard lock(mutex_);
  DevicesView view;
  for (auto device = devices_.rbegin(); device != devices_.rend(); ++device) view.devices.push_back(view_of(*device));
  return view;
}

}  // namespace hw::service
