#pragma once
// Findings as they follow from entries: which entries are about which finding, and what they come to.

#include "libs/sql/connection.h"
#include "src/service/finding.h"

namespace hw::storage {

// After an entry about a finding was written: the finding anew, from all of its entries.
Result<void> derive_finding(sql::Connection& db, const service::Entry& entry);

Result<std::optional<service::Finding>> read_finding(sql::Connection& db, std::string_view id);
// In no order; of all machines where none is named.
Result<std::vector<service::Finding>> read_open_findings(sql::Connection& db,
                                                         const std::optional<std::string>& machine);
// Settled last first.
Result<std::vector<service::Finding>> read_settled_findings(sql::Connection& db,
                                                            const std::optional<std::string>& machine, int count_max);
// The entries about a finding, in the order in which they were kept.
Result<std::vector<service::Entry>> read_entries_about(sql::Connection& db, std::string_view finding);

}  // namespace hw::storage
