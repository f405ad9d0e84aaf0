// The record of a live count:
//
//   record = "HWLC" version fingerprint state checksum
//
// version: one byte. fingerprint: 8 bytes, of the model and the settings; state: see state_archive.h and the functions
// below; checksum: 8 bytes, FNV-1a of all before it. Numbers of 8 bytes have the lowest byte first.

#include <algorithm>
#include <cstring>
#include <tuple>

#include "src/counters/live_count.h"
#include "src/counters/state_archive.h"

namespace hw::counters {
namespace {

constexpr std::string_view magic = "HWLC";
constexpr char version = 1;
constexpr std::size_t head_bytes = 4 + 1 + 8;
constexpr std::size_t checksum_bytes = 8;

std::string bytes_of(std::uint64_t number) {
  std::string bytes;
  for (int n = 0; n < 8; ++n) bytes.push_back(static_cast<char>(number >> (8 * n)));
  return bytes;
}

template <class Archive>
void archive_tally(Archive& a, Tally& tally) {
  for (std::int64_t& ns : tally.ns) a.number(ns);
  a.number(tally.filled_ns);
  a.number(tally.starts);
  a.real(tally.amount);
}

template <class Archive>
void archive_day(Archive& a, DayTally& day) {
  a.number(day.date.days);
  a.number(day.counter);
  archive_tally(a, day.tally);
}

template <class Archive>
void archive_observation(Archive& a, Observation& observation) {
  a.time(observation.at);
  a.number(observation.item);
  a.real(observation.value);
}

template <class Archive>
void archive_own(Archive& a, OwnReadings& own) {
  const auto real = [](Archive& archive, double& value) { archive.real(value); };
  archive_optional(a, own.first, real);
  archive_optional(a, own.last, real);
  a.real(own.rises);
  a.number(own.falls);
}

// The settings as far as they decide what is counted.
std::string text_of(const LiveSettings& settings) {
  const CountSettings& counting = settings.counting;
  std::string text =
      fmt::format("{} {} {} {}", counting.zone.name(), settings.reorder.ns, counting.load_above_percent.value_or(-1),
                  counting.silence_limit.value_or(Duration{-1}).ns);
  for (const PoweredSource source : counting.powered_sources) text += fmt::format(" {}", static_cast<int>(source));
  for (const auto& [kind, item] : settings.fills) text += fmt::format(" {}={}", word_of(kind), item);
  return text;
}

std::uint64_t fingerprint_of(const MachineModel& model, const LiveSettings& settings) {
  std::string text = text_of(settings);
  for (const Item& item : model.items) {
    text += fmt::format("\n{}|{}|{}|{}|{}|{}|{}", item.id, item.name, item.type, item.sub_type, item.coordinate_system,
                        item.component_id, static_cast<int>(item.role));
  }
  return checksum_of(text);
}

}  // namespace

template <class Archive>
void archive_fill(Archive& a, Fill& fill) {
  a.flag(fill.is_open_);
  a.flag(fill.is_waiting_);
  a.flag(fill.is_heard_);
  a.time(fill.began_);
  a.time(fill.since_);
  a.number(fill.today_ns_);
  a.number(fill.counted_at_end_ns_);
  archive_optional(a, fill.seconds_before_, [](Archive& archive, double& value) { archive.real(value); });
  archive_list(a, fill.past_, [](Archive& archive, auto& past) {
    archive_day(archive, past.row);
    archive.number(past.gap_ns);
  });
}

template <class Archive>
void archive_ties(Archive& a, Ties& ties) {
  archive_list(a, ties.settled_, archive_observation<Archive>);
  std::vector<std::pair<std::uint32_t, std::uint64_t>> overruled(ties.overruled_.begin(), ties.overruled_.end());
  archive_list(a, overruled, [](Archive& archive, auto& one) {
    archive.number(one.first);
    archive.number(one.second);
  });
  if constexpr (Archive::reads) {
    ties.overruled_.insert(overruled.begin(), overruled.end());
    for (std::uint32_t n = 0; n < ties.settled_.size(); ++n) {
      const std::uint32_t item = ties.settled_[n].item;
      if (item < ties.places_.size()) ties.places_[item] = {ties.moment_, n};
    }
  }
}

template <class Archive>
void archive_motion(Archive& a, MotionFinder& motion) {
  for (MotionFinder::Position& position : motion.positions_) {
    if (!position.is_position) continue;
    a.flag(position.known);
    a.real(position.value);
    a.time(position.at);
  }
  if constexpr (!Archive::reads) {
    motion.waiting_.erase(motion.waiting_.begin(),
                          motion.waiting_.begin() + static_cast<std::ptrdiff_t>(motion.first_waiting_));
    motion.first_waiting_ = 0;
  }
  archive_list(a, motion.waiting_, archive_observation<Archive>);
}

template <class Archive>
void archive_clocks(Archive& a, TwoClocks& clocks) {
  for (TwoClocks::Stamps& stamps : clocks.stamps_) {
    bool has = stamps.latest != TwoClocks::never;
    a.flag(has);
    if (!has) continue;
    Instant latest{stamps.latest}, last_arrived{stamps.last_arrived};
    a.time(latest);
    a.time(last_arrived);
    stamps = {latest.ns, last_arrived.ns};
  }
  std::vector<TwoClocks::Unknown> unknowns(clocks.unknowns_.begin(), clocks.unknowns_.end());
  std::sort(unknowns.begin(), unknowns.end(),
            [](const auto& x, const auto& y) { return std::tie(x.at, x.item) < std::tie(y.at, y.item); });
  archive_list(a, unknowns, [](Archive& archive, TwoClocks::Unknown& unknown) {
    Instant at{unknown.at};
    archive.time(at);
    archive.number(unknown.item);
    unknown.at = at.ns;
  });
  if constexpr (Archive::reads) clocks.unknowns_.insert(unknowns.begin(), unknowns.end());
}

template <class Archive>
void archive_meter(Archive& a, Meter& meter) {
  a.flag(meter.counting_);
  a.number(meter.blind_);
  a.time(meter.now_);
  archive_optional(a, meter.life_at_, [](Archive& archive, Instant& at) { archive.time(at); });
  a.number(meter.day_.days);
  for (std::size_t i = 0; i < meter.items_.size(); ++i) {
    Meter::ItemState& item = meter.items_[i];
    if (item.kind == Meter::Kind::unused) continue;
    a.flag(item.present);
    a.real(item.value);
    a.time(item.rate_since);
    if (item.kind != Meter::Kind::number) continue;
    a.real(item.last_known);
    a.time(item.heard_at);
    archive_own(a, meter.own_[i]);
  }
  for (Meter::Counter& counter : meter.counters_) {
    archive_tally(a, counter.day);
    archive_tally(a, counter.before);
    a.time(counter.since);
    a.time(counter.turned_at);
    a.number(counter.state);
    a.flag(counter.present);
  }
  archive_list(a, meter.days_, archive_day<Archive>);
  for (Fill& fill : meter.fills_) archive_fill(a, fill);
  if constexpr (Archive::reads) meter.derive();
}

template <class Archive>
void archive_engine(Archive& a, Engine& engine) {
  a.time(engine.moment_at_);
  archive_ties(a, engine.ties_);
  archive_motion(a, engine.motion_);
  archive_meter(a, engine.meter_);
}

template <class Archive>
void archive_live(Archive& a, LiveCount& live) {
  a.time(live.begin_);
  archive_optional(a, live.newest_, [](Archive& archive, Instant& at) { archive.time(at); });
  archive_list(a, live.pending_, [](Archive& archive, LiveCount::Pending& pending) {
    archive_observation(archive, pending.observation);
    archive.time(pending.stamped_at);
  });
  for (std::optional<Observation>& last : live.last_) archive_optional(a, last, archive_observation<Archive>);
  archive_clocks(a, live.clocks_);
  archive_engine(a, live.engine_);
}

std::string LiveCount::save() const {
  LiveCount copy = *this;  // writing names the parts as reading does, by reference
  StateWriter writer;
  archive_live(writer, copy);
  std::string record(magic);
  record += version;
  record += bytes_of(fingerprint_of(model(), settings_));
  record += writer.bytes();
  return record + bytes_of(checksum_of(record));
}

Result<LiveCount> LiveCount::restore(const MachineModel& model, LiveSettings settings, std::string_view record) {
  const bool is_record = record.size() >= head_bytes + checksum_bytes && record.substr(0, magic.size()) == magic;
  const std::string_view checked = record.substr(0, record.size() - std::min(record.size(), checksum_bytes));
  if (!is_record || record.substr(checked.size()) != bytes_of(checksum_of(checked))) {
    return refuse(ErrorCode::corrupt, "the stored count of {} is damaged: {} bytes that are not what was written",
                  model.name, record.size());
  }
  if (record[magic.size()] != version) {
    return refuse(ErrorCode::unsupported, "the stored count of {} has form {}; this version reads form {}", model.name,
                  static_cast<int>(record[magic.size()]), static_cast<int>(version));
  }
  if (record.substr(magic.size() + 1, 8) != bytes_of(fingerprint_of(model, settings))) {
    return refuse(ErrorCode::conflict, "the stored count of {} belongs to another device model or other settings",
                  model.name);
  }
  LiveCount live(model, std::move(settings), Instant{});
  StateReader reader(checked.substr(head_bytes));
  archive_live(reader, live);
  if (!reader.is_whole()) {
    return refuse(ErrorCode::corrupt, "the stored count of {} does not read to its end", model.name);
  }
  return live;
}

}  // namespace hw::counters
