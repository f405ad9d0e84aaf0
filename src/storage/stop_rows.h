#pragma once
// Stops as they follow from entries: which entries are about which stop, and what they come to.

#include "libs/sql/connection.h"
#include "src/service/stop.h"

namespace hw::storage {

// After an entry about a stop was written: the stop anew, from all of its entries.
Result<void> derive_stop(sql::Connection& db, const service::Entry& entry);

Result<std::optional<service::Stop>> read_stop(sql::Connection& db, std::string_view id);
// In no order; of all machines where none is named.
Result<std::vector<service::Stop>> read_agreed_stops(sql::Connection& db, const std::optional<std::string>& machine);
// Closed and withdrawn ones, or those of one of the two states; what ended last first.
Result<std::vector<service::Stop>> read_past_stops(sql::Connection& db, const std::optional<std::string>& machine,
                                                   std::optional<service::StopState> only, int count_max);

}  // namespace hw::storage
