#pragma once
// The tables of what people did: entry (written by logbook_rows), hour_reading, hour_settlement, adjustment.

#include "libs/sql/connection.h"
#include "src/service/records.h"

namespace hw::storage {

Result<std::optional<service::Entry>> read_entry(sql::Connection& db, std::string_view id);
Result<std::vector<service::Entry>> read_entries(sql::Connection& db, std::string_view machine, int count_max);
// The entry by which the task was done last, of those that nobody took back.
Result<std::optional<service::Entry>> read_last_done(sql::Connection& db, std::string_view machine,
                                                     std::string_view task);
// Entries by which the task was done and in which something was read in a stop or filled in, the latest first; none
// that was taken back.
Result<std::vector<service::Entry>> read_measured_doings(sql::Connection& db, std::string_view machine,
                                                         std::string_view task, int count_max);

// Every entry by which the task was done, of those that nobody took back, in the order in which they happened.
Result<std::vector<service::Entry>> read_doings(sql::Connection& db, std::string_view machine, std::string_view task);

Result<void> insert_hour_reading(sql::Connection& db, const service::HourReading& reading);
Result<void> insert_settlement(sql::Connection& db, const std::string& reading, const std::string& settled_as,
                               const std::string& entry);
Result<std::vector<service::HourReading>> read_hour_readings(sql::Connection& db, std::string_view machine);
Result<void> insert_adjustment(sql::Connection& db, const service::Adjustment& adjustment);
Result<std::vector<service::Adjustment>> read_adjustments(sql::Connection& db, std::string_view machine);

}  // namespace hw::storage
