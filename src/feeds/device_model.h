#pragma once
// Reads MTConnectDevices documents of every version (1.0 to 2.x), with any prefix or namespace or none, into machine
// models. Unknown elements are passed over, their children are looked at. The agent's own device (since 1.7) is left
// out.
//
// PATH_POSITION and other "x y z" positions become three items "<id>/x", "<id>/y", "<id>/z".

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "libs/values/result.h"
#include "src/counters/machine_model.h"

namespace hw::feeds {

struct DevicesDocument {
  std::uint64_t instance_id = 0;
  std::string version;            // "1.3", from the namespace, else the header
  std::string model_change_time;  // deviceModelChangeTime as it stands; empty before 1.7
  std::vector<counters::MachineModel> machines;
};

// Refuses (bad_input) what is no XML, another document (an MTConnectError: its code and text), a device without any
// name, and more than a million items; the message names the line.
Result<DevicesDocument> read_devices(std::string_view document);

// The same from a file, plain, .gz or .xz; messages begin with the file's name.
Result<DevicesDocument> read_devices_file(const std::filesystem::path& file);

// How many `units` one native unit is: MILLIMETER/MINUTE -> MILLIMETER/SECOND is 1/60, times nativeScale's inverse. 1
// where the pair is not known.
double native_to_units(std::string_view native_units, std::string_view units, double native_scale);

}  // namespace hw::feeds
