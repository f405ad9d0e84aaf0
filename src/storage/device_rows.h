#pragma once
// The tables of devices that have joined: device and device_end, both only added to, and device_seen, the latest day.

#include <vector>

#include "libs/sql/connection.h"
#include "src/service/device_records.h"

namespace hw::storage {

// Refuses (conflict) an id that is there.
Result<void> insert_device(sql::Connection& db, const service::Device& device);
// Refuses (conflict) a device that has ended, or that is not there.
Result<void> insert_device_end(sql::Connection& db, const service::DeviceEnd& end);
Result<void> put_device_seen(sql::Connection& db, const std::string& device, LocalDate on);
// In the order in which they joined.
Result<std::vector<service::Device>> read_devices(sql::Connection& db);

}  // namespace hw::storage
