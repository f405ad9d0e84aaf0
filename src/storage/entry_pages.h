#pragma once
// Pages of the logbook: the latest entries that fit a filter, in milliseconds also where there are a million.
//
// Entries are read in falling order of their ordinals along an index (by machine, kind or person where the filter names
// one), and reading stops when the page is full. Days are turned into a span of ordinals first: entries are kept nearly
// in the order in which they happened, so that almost everything within the span fits. A text is looked for in what is
// read, which takes about a second for a million entries where nothing fits.

#include "libs/sql/connection.h"
#include "src/service/logbook.h"
#include "src/service/records.h"

namespace hw::storage {

// The latest first.
Result<std::vector<service::Entry>> read_entries(sql::Connection& db, const service::EntryFilter& filter,
                                                 int count_max);

// How many entries wait for the lead: strays that nobody has corrected.
Result<std::int64_t> count_strays(sql::Connection& db);

// The statement by which a filter is read, for the test that looks at how it is run.
std::string entries_query(const service::EntryFilter& filter);

}  // namespace hw::storage
