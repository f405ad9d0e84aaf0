#include "src/counters/packed.h"

#include <algorithm>
#include <array>

#include "src/counters/state_archive.h"

namespace hw::counters {
namespace {

constexpr std::int64_t packed_version = 1;
constexpr std::array<std::int64_t, 4> units_ns = {1'000'000'000, 1'000'000, 1'000, 1};

std::int64_t unit_of_times(std::span<const Observation> observations) {
  for (const std::int64_t unit : units_ns) {
    const auto is_whole = [&](const Observation& o) { return o.at.ns % unit == 0; };
    if (std::all_of(observations.begin(), observations.end(), is_whole)) return unit;
  }
  return 1;
}

std::string checksum_text(std::string_view bytes) {
  const std::uint64_t checksum = checksum_of(bytes);
  std::string text;
  for (int n = 0; n < 8; ++n) text.push_back(static_cast<char>(checksum >> (8 * n)));
  return text;
}

template <class Archive>
void archive_packed(Archive& a, Observation& observation, std::int64_t unit_ns) {
  a.number(observation.item);
  Instant at{observation.at.ns / unit_ns};
  a.time(at);
  a.real(observation.value);
  // Modulo 2^64: what was written fits, and what was damaged is wrong anyway.
  if constexpr (Archive::reads) {
    observation.at.ns =
        static_cast<std::int64_t>(static_cast<std::uint64_t>(at.ns) * static_cast<std::uint64_t>(unit_ns));
  }
}

bool is_unit(std::int64_t unit) { return std::find(units_ns.begin(), units_ns.end(), unit) != units_ns.end(); }

}  // namespace

std::string pack(std::span<const Observation> observations) {
  StateWriter writer;
  std::int64_t form = packed_version, unit = unit_of_times(observations);
  std::size_t count = observations.size();
  writer.number(form);
  writer.number(unit);
  writer.number(count);
  for (Observation observation : observations) archive_packed(writer, observation, unit);
  return writer.bytes() + checksum_text(writer.bytes());
}

Result<std::vector<Observation>> unpack(std::string_view payload) {
  const std::string_view bytes = payload.substr(0, payload.size() - std::min<std::size_t>(payload.size(), 8));
  const auto damaged = refuse(
      ErrorCode::corrupt, "stored observations are damaged: {} bytes that are not what was written", payload.size());
  if (payload.size() < 8 || payload.substr(bytes.size()) != checksum_text(bytes)) return damaged;
  StateReader reader(bytes);
  std::int64_t form = 0, unit = 0;
  reader.number(form);
  reader.number(unit);
  if (form != packed_version || !is_unit(unit)) return damaged;
  std::vector<Observation> observations(reader.count());
  for (Observation& observation : observations) archive_packed(reader, observation, unit);
  if (!reader.is_whole()) return damaged;
  return observations;
}

}  // namespace hw::counters
