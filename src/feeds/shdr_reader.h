#pragma once
// Reads SHDR, an adapter's lines or the log of them:
//
//   line     = [ time [ "@" duration_s ] "|" ] key "|" value *( "|" key "|" value ) ( LF | CRLF )
//            | "*" command | asset
//   key      = [ device ":" ] ( DataItem name | id | Source text )
//   value    = text without "|" | '"' text with "\|" for "|" '"'
//   asset    = time "|@ASSET@|" id "|" type "|--multiline--" X ... LF "--multiline--" X
//
// A CONDITION has 5 fields behind its key, a MESSAGE 2, a time series 3, ASSET_CHANGED and ASSET_REMOVED 2, an ALARM 5,
// all else 1; of a key that the model lacks one field is skipped, or five where the first is a condition's word.
// Numbers come in native units unless "* conversionRequired: no" has been said.
//
// Never refuses: a line that cannot be read is counted as bad, with its number, and the next one is read.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "src/feeds/delivery.h"
#include "src/feeds/time_reader.h"

namespace hw::feeds {

class ShdrSink : public ArrivalSink {
 public:
  // Each key that the models lack, once.
  virtual void unknown_key(std::string_view key) = 0;
  virtual void bad_line(std::uint64_t line, std::string_view why) = 0;
};

class ShdrReader {
 public:
  // `machine`: whose lines they are where no `device:` says so; none_found: unknown until "* device: x".
  ShdrReader(const ItemIndex& index, const Vocabulary& words, ShdrSink& sink, std::uint32_t machine);

  // One line without its line end. Live, `received_at` is the time of lines that bear none; in files such a line is
  // bad.
  void line(std::string_view text, std::optional<Instant> received_at = std::nullopt);

  std::uint64_t lines() const { return lines_; }                // read so far
  std::uint64_t observations() const { return observations_; }  // all key/value pairs, those that no counter uses too
  // By machine.
  const std::vector<SeenTimes>& seen() const { return seen_; }
  // From "* PONG 10000": the adapter's heartbeat, if it has said one.
  std::optional<Duration> heartbeat() const { return heartbeat_; }

 private:
  // What follows the "|" that it is asked for; false at the line's end.
  struct Fields {
    std::string_view rest;
    bool more = true;
    // Fields are short: looking at each byte is faster than asking memchr.
    std::string_view next() {
      std::size_t bar = 0;
      while (bar < rest.size() && rest[bar] != '|') ++bar;
      const std::string_view field = rest.substr(0, bar);
      more = bar < rest.size();
      rest.remove_prefix(more ? bar + 1 : bar);
      return field;
    }
    std::string_view next_quoted(std::string& unescaped);
    bool has(std::size_t count) const;
  };
  bool read_time(Fields& fields, std::optional<Instant> received_at, Instant& at);
  bool read_time_like_the_last(Fields& fields, Instant& at);
  bool read_relative(std::string_view text, std::optional<Instant> received_at, Instant& at);
  void pairs(Fields& fields, Instant at);
  void known(Fields& fields, const ItemPlace& place, std::uint32_t machine, Instant at);
  void unknown(Fields& fields, std::string_view key);
  const ItemPlace& find(std::string_view key, std::uint32_t& machine) const;
  void deliver(std::string_view text, const ItemPlace& place, Arrival& arrival);
  void command(std::string_view text);
  bool begins_asset(std::string_view text);
  bool is_in_asset(std::string_view text);
  void bad(std::string_view why);

  const ItemIndex& index_;
  ShdrSink& sink_;
  std::uint32_t machine_;
  std::uint64_t lines_ = 0;
  std::uint64_t observations_ = 0;
  std::vector<SeenTimes> seen_;
  std::optional<Duration> heartbeat_;
  TimeReader times_;
  std::size_t time_size_ = 0;              // of the last line's time
  bool is_converted_ = false;              // "* conversionRequired: no": numbers come in units already
  bool is_relative_ = false;               // "* relativeTime: yes": times are milliseconds since the first line
  std::optional<Duration> relative_zero_;  // the moment of 0 ms, since 1970
  std::string asset_end_;                  // the line that ends the asset being passed over; empty: none is
  std::string unescaped_;                  // reused from value to value
  Once unknown_keys_;
  Delivery delivery_;
};

}  // namespace hw::feeds
