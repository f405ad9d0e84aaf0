#pragma once
// The logbook: entries as they are written, each sealed behind the one before it, and as they are verified.

#include "libs/sql/connection.h"
#include "src/record/verify.h"
#include "src/service/records.h"

namespace hw::storage {

// The head row of a new plant: no entry yet.
Result<void> begin_logbook(sql::Connection& db);

// Gives the entry its ordinal and writes it, sealed behind the newest one, moves the head on to it, and writes what
// follows from it; the caller's transaction keeps all or nothing. Refuses: conflict (its id is there), corrupt (there
// is no head).
Result<void> insert_entry(sql::Connection& db, service::Entry& entry);

// Writes the entry's row alone, unsealed, with the ordinal that it has: for what is made again beside the logbook.
Result<void> copy_entry(sql::Connection& db, const service::Entry& entry);

// Refuses (corrupt) tables that do not have the logbook's columns.
Result<void> check_logbook_tables(sql::Connection& db);

// What is to be said of the chain of all entries of the plant alone. Reads whatever types and nulls somebody put into
// the columns.
Result<record::Verdict> read_chain(sql::Connection& db, const std::optional<std::string>& noted);

// What is to be said of all entries of the plant, of what follows from them and of their photos. Reads whatever types
// and nulls somebody put into the columns.
Result<record::Verdict> read_verdict(sql::Connection& db, const std::optional<std::string>& noted);

}  // namespace hw::storage
