#pragma once
// The tables of counting: observation_log, counting_state, checkpoint, counter_day, feed_position, message_position.

#include "libs/sql/connection.h"
#include "src/service/store.h"

namespace hw::storage {

// All of a step; the caller holds the transaction.
Result<void> put_counting(sql::Connection& db, const service::CountingStep& step);

Result<std::vector<service::CountingRecord>> read_counting(sql::Connection& db);
Result<std::vector<service::FeedPosition>> read_positions(sql::Connection& db);
Result<std::vector<service::MessagePosition>> read_message_positions(sql::Connection& db);
Result<std::vector<service::DayRecord>> read_days(sql::Connection& db, std::string_view machine,
                                                  std::string_view counter, LocalDate first, LocalDate last);
Result<std::optional<service::Store::Checkpoint>> read_checkpoint(sql::Connection& db, std::string_view machine,
                                                                  LocalDate on);
Result<void> read_log(sql::Connection& db, std::string_view machine, std::optional<LocalDate> after_checkpoint,
                      const std::function<Result<void>(const service::LogPiece&)>& take);

}  // namespace hw::storage
