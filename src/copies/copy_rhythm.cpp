#include "src/copies/copy_rhythm.h"

namespace hw::copies {
namespace {

// The last time at which the plant's clock was at the hour.
Instant last_turn(CopyHour at, const Zone& zone, Instant now) {
  const LocalDate today = zone.date_of(now);
  const Instant turn = zone.at(today, at.hour * 60);
  return turn <= now ? turn : zone.at(today - 1, at.hour * 60);
}

}  // namespace

bool is_copy_due(const CopyTries& tries, CopyHour at, const Zone& zone, Instant now) {
  // A try of the future was made by another clock.
  if (tries.tried_at && *tries.tried_at <= now && now - *tries.tried_at < Duration::hours(1)) return false;
  if (!tries.good_at || *tries.good_at > now) return true;
  return *tries.good_at < last_turn(at, zone, now);
}

}  // namespace hw::copies
