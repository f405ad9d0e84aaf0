#pragma once
// Fills the unknown time of one counter by the control's own counter, which ran on while the feed was away: what it
// rose by across a gap, never more than the gap lasts, spread over the gap's days. What is filled stays apart from what
// is counted.
//
// The rise is read at the gap's end. Where the control's counter is not known by then, the first value that comes
// later tells; what was counted in between is taken off. Gaps between which it told nothing are filled as one. A gap
// before which it was never known cannot be filled, nor can one in which it fell.

#include <cstdint>
#include <optional>
#include <vector>

#include "libs/values/instant.h"
#include "src/counters/tally.h"

namespace hw::counters {

class Fill {
 public:
  Fill() = default;
  Fill(std::uint32_t of_slot, std::uint32_t by_item) : slot(of_slot), item(by_item) {}

  std::uint32_t slot = 0;  // the counter that is filled
  std::uint32_t item = 0;  // the control's counter

  // What the meter knows of both at one moment.
  struct Moment {
    Instant now;
    Truth state = Truth::unknown;   // of the counter
    std::int64_t counted_ns = 0;    // by the counter so far
    std::optional<double> seconds;  // the control's counter as last known
    bool is_heard = false;          // it is known at this very moment
  };

  // Once everything of a moment is settled. What can be filled now, in nanoseconds, if the gap's end has come and its
  // rise is known; spread() then says where.
  std::optional<std::int64_t> settle(const Moment& moment);
  // The local day ends: its row is as counted so far, and may be filled later.
  void end_day(Instant end, const DayTally& row);
  // Divides what settle() gave over the gap's days: adds to the rows of days that are over and hands them back; the
  // rest belongs to the day that is open.
  std::vector<DayTally> spread(std::int64_t filled_ns, std::int64_t& filled_today_ns);

 private:
  template <class Archive>
  friend void archive_fill(Archive& archive, Fill& fill);

  struct Past {
    DayTally row;
    std::int64_t gap_ns = 0;
  };
  // Beyond so many days a gap's first days are given up, so that what is kept stays small.
  static constexpr std::size_t past_days_max = 400;

  void open_gap(const Moment& moment);
  std::int64_t rise_ns(const Moment& moment) const;
  std::int64_t gap_ns() const;
  void forget();

  bool is_open_ = false;     // the counter is unknown
  bool is_waiting_ = false;  // a gap is over and the control's counter has not told yet
  bool is_heard_ = false;    // it has told since the gap began
  Instant began_;            // the gap
  Instant since_;            // the part of the gap that is not added up yet
  std::int64_t today_ns_ = 0;
  std::int64_t counted_at_end_ns_ = 0;
  std::optional<double> seconds_before_;
  std::vector<Past> past_;
};

}  // namespace hw::counters
