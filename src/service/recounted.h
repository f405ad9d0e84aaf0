#pragma once
// A machine's counters made again from all that was logged of it, to be held against what is kept.

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "src/service/machine_count.h"

namespace hw::service {

// What of a machine is kept.
struct KeptCount {
  CountingRecord record;
  std::map<std::string, std::string> fills;
  Instant alive_at;                                   // up to which its feed had told everything
  std::optional<Store::Checkpoint> first_checkpoint;  // the earliest that is of the record's model
  // Every piece of its log after that checkpoint, or from the first on where there is none.
  std::function<Result<void>(const std::function<Result<void>(const LogPiece&)>& take, bool after_checkpoint)> read_log;
};

struct Recounted {
  // Every day from here on was counted again; what was before was counted under an earlier model of the machine, whose
  // items nobody knows any more, and stays.
  LocalDate first_day;
  bool is_whole = true;  // nothing was before
  LocalDate open_day;    // up to which the record has counted: its rows are still to come
  // The days that are over, by counter: counted again.
  std::map<std::pair<std::string, LocalDate>, DayRecord> days;
  // Every counter's total at the moment up to which the record has counted, one a line: as kept, and counted again.
  std::string totals_kept;
  std::string totals_made;
  std::string state;  // for the record, to go on from
};

// Whether a checkpoint, as it is kept, is of the record's present model. Refuses (corrupt) what does not read.
Result<bool> is_of_model(const KeptCount& kept, const std::string& checkpoint, const Zone& zone);

// Refuses (corrupt) a record or a log that does not read.
Result<Recounted> recount(const KeptCount& kept, const Zone& zone, Instant now);

}  // namespace hw::service
