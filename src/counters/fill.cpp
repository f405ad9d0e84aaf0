#include "src/counters/fill.h"

#include <algorithm>
#include <cmath>

namespace hw::counters {

std::optional<std::int64_t> Fill::settle(const Moment& moment) {
  if (is_open_ && moment.is_heard && moment.now > began_) is_heard_ = true;
  if (moment.state == Truth::unknown) {
    if (!is_open_) open_gap(moment);
    return {};
  }
  if (is_open_) {
    today_ns_ += (moment.now - since_).ns;
    counted_at_end_ns_ = moment.counted_ns;
    is_open_ = false;
    is_waiting_ = true;
  }
  if (!is_waiting_ || !(is_heard_ || moment.is_heard)) return {};
  return rise_ns(moment);
}

void Fill::open_gap(const Moment& moment) {
  if (!is_waiting_) {
    forget();
    seconds_before_ = moment.seconds;
  }
  is_open_ = true;
  is_heard_ = false;
  began_ = since_ = moment.now;
}

// Never more than the gap, never less than nothing.
std::int64_t Fill::rise_ns(const Moment& moment) const {
  if (!seconds_before_ || !moment.seconds) return 0;
  const double gap_s = static_cast<double>(gap_ns()) / 1e9;
  const double counted_s = static_cast<double>(moment.counted_ns - counted_at_end_ns_) / 1e9;
  const double rise_s = *moment.seconds - *seconds_before_ - counted_s;
  return std::clamp(std::llround(std::clamp(rise_s, 0.0, gap_s) * 1e9), 0LL, static_cast<long long>(gap_ns()));
}

std::int64_t Fill::gap_ns() const {
  std::int64_t sum = today_ns_;
  for (const Past& past : past_) sum += past.gap_ns;
  return sum;
}

void Fill::end_day(Instant end, const DayTally& row) {
  if (is_open_) {
    today_ns_ += (end - since_).ns;
    since_ = end;
  }
  if (today_ns_ > 0) past_.push_back({row, today_ns_});
  today_ns_ = 0;
  if (past_.size() > past_days_max) past_.erase(past_.begin());
}

// By the days' shares of the gap: filled * (gap up to this day) / gap, less what went to the days before.
std::vector<DayTally> Fill::spread(std::int64_t filled_ns, std::int64_t& filled_today_ns) {
  __extension__ using Wide = __int128;
  const std::int64_t total = gap_ns();
  std::int64_t gap_so_far = 0, filled_so_far = 0;
  std::vector<DayTally> rows;
  for (Past& past : past_) {
    gap_so_far += past.gap_ns;
    const auto up_to_here = static_cast<std::int64_t>(static_cast<Wide>(filled_ns) * gap_so_far / total);
    past.row.tally.filled_ns += up_to_here - filled_so_far;
    filled_so_far = up_to_here;
    rows.push_back(past.row);
  }
  filled_today_ns = filled_ns - filled_so_far;
  forget();
  return rows;
}

void Fill::forget() {
  is_waiting_ = is_heard_ = false;
  today_ns_ = 0;
  past_.clear();
}

}  // namespace hw::counters
