#pragma once
// Walks of rounds and their answers, from the tables that follow from the entries (derived_rows.h).

#include "libs/sql/connection.h"
#include "src/service/walk_record.h"

namespace hw::storage {

// The machine's walks that began, or were answered on, in the last `back` before its latest walk or answer; with those
// of their answers that were given then.
Result<std::vector<service::WalkRecord>> read_latest_walks(sql::Connection& db, std::string_view machine,
                                                           Duration back);
// One walk of the machine with all its answers.
Result<std::optional<service::WalkRecord>> read_walk(sql::Connection& db, std::string_view machine,
                                                     std::string_view walk);
// The latest values that were read at a check, the latest first.
Result<std::vector<service::AnswerRecord>> read_readings(sql::Connection& db, std::string_view machine,
                                                         std::string_view check, int count_max);

}  // namespace hw::storage
