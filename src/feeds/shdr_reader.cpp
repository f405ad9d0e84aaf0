#include "src/feeds/shdr_reader.h"

#include <cmath>

#include "src/feeds/text_hash.h"

namespace hw::feeds {
namespace {

using counters::Role;

constexpr std::uint8_t condition_fields = 5;

bool looks_like_time(std::string_view text) {
  return text.size() >= 8 && text[0] >= '0' && text[0] <= '9' && text.find('-') != std::string_view::npos &&
         text.find(':') != std::string_view::npos;
}

bool is_condition_word(std::string_view text) {
  return is_word(text, "NORMAL") || is_word(text, "WARNING") || is_word(text, "FAULT");
}

// Whether a quote at the front closes before the field ends.
std::size_t closing_quote(std::string_view text) {
  for (std::size_t i = 1; i < text.size(); ++i) {
    if (text[i] == '\\' && i + 1 < text.size()) {
      ++i;
    } else if (text[i] == '"') {
      return i;
    }
  }
  return std::string_view::npos;
}

}  // namespace

// A field in quotes may hold "\|"; quotes that do not close, or close before the field ends, are plain text.
std::string_view ShdrReader::Fields::next_quoted(std::string& unescaped) {
  if (rest.empty() || rest.front() != '"') return next();
  const std::size_t close = closing_quote(rest);
  if (close == std::string_view::npos) return next();
  const std::string_view behind = trim(rest.substr(close + 1, rest.find('|', close) - close - 1));
  if (!behind.empty()) return next();
  unescaped.clear();
  for (std::size_t i = 1; i < close; ++i) {
    if (rest[i] == '\\' && rest[i + 1] == '|') ++i;
    unescaped += rest[i];
  }
  rest.remove_prefix(close);
  next();
  return unescaped;
}

bool ShdrReader::Fields::has(std::size_t count) const {
  if (!more) return count == 0;
  std::size_t bars = 0;
  for (const char c : rest) bars += c == '|' ? 1U : 0U;
  return bars + 1 >= count;
}

ShdrReader::ShdrReader(const ItemIndex& index, const Vocabulary& words, ShdrSink& sink, std::uint32_t machine)
    : index_(index), sink_(sink), machine_(machine), seen_(index.machines()), delivery_(words, sink) {}

void ShdrReader::line(std::string_view text, std::optional<Instant> received_at) {
  ++lines_;
  if (!asset_end_.empty() && is_in_asset(text)) return;
  if (!text.empty() && text.back() == '\r') text.remove_suffix(1);
  if (text.empty()) return;
  if (text.front() == '*') return command(text.substr(1));
  Fields fields{text};
  Instant at;
  if (!read_time(fields, received_at, at)) return;
  if (begins_asset(fields.rest)) return;
  if (!fields.more) return bad("no key and value");
  pairs(fields, at);
}

// The time in front, or the time of arrival where the line begins with a key at once.
bool ShdrReader::read_time(Fields& fields, std::optional<Instant> received_at, Instant& at) {
  if (read_time_like_the_last(fields, at)) return true;
  const Fields whole = fields;
  std::string_view stamp = fields.next();
  time_size_ = stamp.size();
  if (times_.read(stamp, at)) return true;
  stamp = trim(stamp);
  stamp = stamp.substr(0, stamp.find('@'));
  if (is_relative_ && read_relative(stamp, received_at, at)) return true;
  if (times_.read(stamp, at)) return true;
  if (!received_at || looks_like_time(stamp)) {
    bad(stamp.empty() ? "no time" : "no time that can be read");
    return false;
  }
  at = *received_at;
  fields = stamp.empty() && fields.more ? fields : whole;
  return true;
}

// Neighbouring lines have times of the same length: then nothing has to be searched.
bool ShdrReader::read_time_like_the_last(Fields& fields, Instant& at) {
  if (fields.rest.size() <= time_size_ || fields.rest[time_size_] != '|') return false;
  if (!times_.read(fields.rest.substr(0, time_size_), at)) return false;
  fields.rest.remove_prefix(time_size_ + 1);
  return true;
}

bool ShdrReader::read_relative(std::string_view text, std::optional<Instant> received_at, Instant& at) {
  const double ms = read_number(text);
  if (!received_at || counters::is_unknown(ms) || std::abs(ms) > 1e12) return false;
  const Duration offset{static_cast<std::int64_t>(ms * 1e6)};
  if (!relative_zero_) relative_zero_ = Duration{received_at->ns - offset.ns};
  at = Instant{relative_zero_->ns + offset.ns};
  return true;
}

void ShdrReader::pairs(Fields& fields, Instant at) {
  while (fields.more) {
    const std::string_view key = trim(fields.next());
    if (!fields.more) {
      if (!key.empty()) bad("a key without a value");
      return;
    }
    std::uint32_t machine = machine_;
    const ItemPlace& place = find(key, machine);
    ++observations_;
    if (place.found()) {
      known(fields, place, machine, at);
    } else {
      unknown(fields, key);
    }
  }
}

const ItemPlace& ShdrReader::find(std::string_view key, std::uint32_t& machine) const {
  if (machine != none_found) {
    if (const ItemPlace& place = index_.by_key(machine, key); place.found()) return place;
  }
  const std::size_t colon = key.find(':');
  if (colon == std::string_view::npos) return nowhere;
  const std::string_view device = trim(key.substr(0, colon));
  const std::uint32_t other = index_.machine(device, device);
  if (other == none_found) return nowhere;
  machine = other;
  return index_.by_key(other, trim(key.substr(colon + 1)));
}

// The value is the first field, but for time series ("count|rate|numbers") the last number of the third.
void ShdrReader::known(Fields& fields, const ItemPlace& place, std::uint32_t machine, Instant at) {
  seen_[machine].add(at);
  std::string_view text = fields.next_quoted(unescaped_);
  for (std::uint8_t n = 1; n < place.shdr_fields && fields.more; ++n) {
    const std::string_view field = fields.next();
    if (place.is_time_series) text = field;
  }
  if (place.role == Role::none) return;
  Arrival arrival{at, 0, counters::unknown_value, machine, place.item, false};
  deliver(text, place, arrival);
}

// The standard's agent skips one field behind a key that it does not know; a condition has five, and whoever skips one
// of them takes its texts for keys.
void ShdrReader::unknown(Fields& fields, std::string_view key) {
  if (!key.empty() && unknown_keys_.first(hash_text(key))) sink_.unknown_key(key);
  const bool is_whole = fields.has(condition_fields);
  const std::string_view word = trim(fields.next());
  const bool has_empty_code = fields.more && trim(Fields{fields.rest}.next()).empty();
  if (!is_whole || !(is_condition_word(word) || (is_unavailable(word) && has_empty_code))) return;
  for (std::uint8_t n = 1; n < condition_fields && fields.more; ++n) fields.next();
}

void ShdrReader::deliver(std::string_view text, const ItemPlace& place, Arrival& arrival) {
  if (place.has_reset_trigger) {
    const std::size_t colon = text.find(':');
    arrival.reset = colon != std::string_view::npos;
    text = text.substr(0, colon);
  }
  delivery_.deliver(text, place, is_converted_ ? 1.0 : place.native_to_units, arrival);
}

// "* device: lathe-l", "* conversionRequired: no", "* relativeTime: yes", "* PONG 10000"; others mean nothing to us.
void ShdrReader::command(std::string_view text) {
  text = trim(text);
  if (text.substr(0, 5) == "PONG ") {
    const double ms = read_number(text.substr(5));
    if (ms > 0 && ms < 1e9) heartbeat_ = Duration{static_cast<std::int64_t>(ms * 1e6)};
    return;
  }
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos) return;
  const std::string_view name = trim(text.substr(0, colon)), value = trim(text.substr(colon + 1));
  if (name == "device") {
    const std::uint32_t machine = index_.machine(value, value);
    if (machine != none_found) machine_ = machine;
  } else if (name == "conversionRequired") {
    is_converted_ = is_word(value, "NO") || is_word(value, "FALSE");
  } else if (name == "relativeTime") {
    is_relative_ = is_word(value, "YES") || is_word(value, "TRUE");
    relative_zero_.reset();
  }
}

// "@ASSET@|id|type|<xml.../>" on one line, or "--multiline--X" as its last field: then all lines to "--multiline--X".
bool ShdrReader::begins_asset(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos || text[first] != '@') return false;
  const std::string_view key = trim(text.substr(0, text.find('|')));
  if (key.size() < 2 || key.back() != '@') return false;
  const std::size_t mark = text.find("--multiline--");
  if (mark != std::string_view::npos) asset_end_ = std::string(trim(text.substr(mark)));
  return true;
}

// A line that begins with a time is none of an asset's: the asset's end was lost, and not the whole rest with it.
bool ShdrReader::is_in_asset(std::string_view text) {
  Instant at;
  const bool is_end = trim(text) == asset_end_;
  if (!is_end && !times_.read(text.substr(0, text.find('|')), at)) return true;
  asset_end_.clear();
  return is_end;
}

void ShdrReader::bad(std::string_view why) { sink_.bad_line(lines_, why); }

}  // namespace hw::feeds
