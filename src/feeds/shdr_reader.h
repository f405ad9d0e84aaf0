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
#include <vector>

#include "src/feeds/arrival.h"
#include "src/feeds/item_index.h"
#include "src/feeds/vocabulary.h"

namespace hw::feeds {

class ShdrSink {
 public:
  virtual ~ShdrSink() = default;
  // An observation of an item that a counter uses.
  virtual void observation(const Arrival& arrival) = 0;
  virtual void unknown_key(std::string_view device, std::string_view key) = 0;
  virtual void odd_word(std::uint32_t machine, std::uint32_t item, std::string_view word) = 0;
  virtual void bad_line(std::uint64_t line, std::string_view why) = 0;
};

class ShdrReader {
 public:
  // `machine`: whose lines they are where no `device:` says so; none_found: unknown until "* device: x".
  ShdrReader(const ItemIndex& index, const Vocabulary& words, ShdrSink& sink, std::uint32_t machine);

  // One line without its line end. Live, `received_at` is the time of lines that bear none; in files such a line is
  // bad.
  void line(std::string_view text, std::optional<Instant> received_at = std::nullopt);
  // Whole lines, and the beginning of one, which is kept until its end comes. Lines beyond 1 MiB are bad.
  void feed(std::string_view piece, std::optional<Instant> received_at = std::nullopt);
  // The end: what is kept is the last line.
  void finish(std::optional<Instant> received_at = std::nullopt);

  std::uint64_t lines() const { return lines_; }
  std::uint64_t observations() const { return observations_; }  // all key/value pairs, those that no counter uses too
  // From "* PONG 10000": the adapter's heartbeat, if it has said one.
  std::optional<Duration> heartbeat() const { return heartbeat_; }

 private:
  const ItemIndex& index_;
  const Vocabulary& words_;
  ShdrSink& sink_;
  std::uint32_t machine_;
  std::uint64_t lines_ = 0;
  std::uint64_t observations_ = 0;
  std::optional<Duration> heartbeat_;
};

}  // namespace hw::feeds
