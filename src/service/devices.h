#pragma once
// Which devices other than this computer may use the shop: they join by a code that somebody made who may, and are
// known from then on by a secret of theirs, of which only the hash is kept. A success is on disk when a function
// returns.

#include <map>
#include <memory>
#include <mutex>
#include <vector>

#include <boost/describe.hpp>

#include "src/access/join_codes.h"
#include "src/service/device_records.h"
#include "src/service/edits.h"
#include "src/service/store.h"

namespace hw::service {

struct JoinCodeEdit {
  std::string id;
  std::string by;
};
BOOST_DESCRIBE_STRUCT(JoinCodeEdit, (), (id, by))

struct DeviceEdit {
  std::string id;
  std::string code;
  std::string title;
};
BOOST_DESCRIBE_STRUCT(DeviceEdit, (), (id, code, title))

struct DeviceView {
  std::string id;
  std::string title;
  Instant enrolled_at;
  std::string enrolled_by;
  bool encrypted = false;
  std::optional<LocalDate> last_seen_on;
  std::optional<Instant> ended_at;
  std::optional<std::string> ended_by;
};
BOOST_DESCRIBE_STRUCT(DeviceView, (),
                      (id, title, enrolled_at, enrolled_by, encrypted, last_seen_on, ended_at, ended_by))

struct DevicesView {
  std::vector<DeviceView> devices;
};
BOOST_DESCRIBE_STRUCT(DevicesView, (), (devices))

DeviceView view_of(const Device& device);

enum class Line { plain, encrypted };

// What a device that joined gets: itself, and the secret that it sends from now on.
struct Enrolled {
  DeviceView device;
  std::string secret;  // 43 signs of base64url: 32 random bytes
};

// Safe for several threads at once.
class Devices {
 public:
  // Refuses what reading the store refuses.
  static Result<std::unique_ptr<Devices>> open(Store& store, const Zone& zone, access::Randomness random);

  // A code by which one device may join. Refuses: bad_input (id, by), too_often.
  Result<access::JoinCode> offer_code(const JoinCodeEdit& edit, Instant now);
  // The device joins. The same id with the same code again is the same device with the same secret. Refuses: bad_input
  // (id, title), not_found (the code), too_often, conflict (another device joined by it, or the id is another's).
  Result<Enrolled> enrol(const DeviceEdit& edit, Line line, Instant now);
  // From now on the device may no longer. Once more is no refusal. Refuses: bad_input, not_found.
  Result<DeviceView> end(std::string_view device, const Signature& signature, Instant now);

  // The device of a secret, while it may; notes the day on which it was seen.
  std::optional<DeviceView> recognise(std::string_view secret, Instant now);
  // All that ever joined, the latest first.
  DevicesView show() const;

 private:
  Devices(Store& store, const Zone& zone, access::Randomness random);
  Device* find(std::string_view id);
  Result<Enrolled> enrol_again(const access::JoinCode& code, const DeviceEdit& edit);
  void note_seen(Device& device, LocalDate today);

  Store& store_;
  Zone zone_;
  access::Randomness random_;
  mutable std::mutex mutex_;
  access::JoinCodes codes_;
  std::vector<Device> devices_;                 // in the order in which they joined
  std::map<std::string, std::size_t> by_hash_;  // of those that may: place in devices_
};

}  // namespace hw::service
