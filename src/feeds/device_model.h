#pragma once
// Reads MTConnectDevices documents of every version (1.0 to 2.x), with any prefix or namespace or none, into machine
// models. Unknown elements are passed over, their children are looked at. The agent's own device (since 1.7) is left
// out.
//
// PATH_POSITION and other "x y z" positions become three items "<id>/x", "<id>/y", "<id>/z".

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "libs/values/result.h"
#include "src/counters/machine_model.h"
#include "src/feeds/note.h"

namespace hw::feeds {

struct DevicesDocument {
  std::uint64_t instance_id = 0;
  std::string version;            // "1.3", from the namespace, else the header
  std::string model_change_time;  // deviceModelChangeTime as it stands; empty before 1.7
  std::vector<counters::MachineModel> machines;
  std::vector<Note> notes;  // native units that cannot be converted
};

// Refuses (bad_input) what is no XML, another document (an MTConnectError: its code and text), a device without name,
// id and uuid, a document without devices, more than items_max items; the message names `name`, line and column.
Result<DevicesDocument> read_devices(std::string_view document, const std::string& name = "probe");

// The same from a file or "-", plain, gzip or xz.
Result<DevicesDocument> read_devices_file(const std::string& path);

inline constexpr std::size_t items_max = 200'000;

}  // namespace hw::feeds
