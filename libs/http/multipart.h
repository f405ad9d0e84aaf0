#pragma once
// Reads multipart bodies (RFC 2046; "multipart/x-mixed-replace") piece by piece, without I/O. Grammar as read:
//
//   body      = [preamble] 1*( delimiter part ) [ "--" boundary "--" [CRLF epilogue] ]
//   delimiter = "--" boundary *blank CRLF
//   part      = *( name ":" value CRLF ) CRLF data [CRLF]
//
// A part with Content-length (any letter case) has exactly that many bytes, whatever they are; one without ends before
// the next line that is a delimiter or the end mark. Bare LF is taken for CRLF. A live stream has no end mark: it may
// end after any whole part.

#include <cstdint>
#include <string>
#include <string_view>

#include "libs/http/headers.h"
#include "libs/values/result.h"

namespace hw::http {

// Receives the parts. An Error ends the reading and is what feed() gives back.
class PartSink {
 public:
  virtual ~PartSink() = default;
  virtual Result<void> begin(const Headers& headers) = 0;
  virtual Result<void> data(std::string_view piece) = 0;
  virtual Result<void> end() = 0;
};

struct MultipartLimits {
  std::size_t part_header_bytes_max = 16 * 1024;  // also of what stands before the first boundary
  std::uint64_t part_bytes_max = 64 * 1024 * 1024;
};

// The boundary parameter of a Content-Type such as multipart/x-mixed-replace;boundary="abc". Refuses (peer_misbehaved)
// what is not multipart or has no boundary of 1 to 200 characters. (Some agents put the two dashes into the parameter
// already: the reader takes both spellings.)
Result<std::string> parse_boundary(std::string_view content_type);

class MultipartReader {
 public:
  MultipartReader(std::string boundary, PartSink& sink, MultipartLimits limits = {});

  // Errors: peer_misbehaved, too_large (a limit), or the sink's own. After an Error the reader refuses everything.
  Result<void> feed(std::string_view piece);
  // The body has ended: refuses when it ends within a part, or without any.
  Result<void> finish();

  // The end mark "--boundary--" has been read; what follows is ignored.
  bool ended() const { return state_ == State::ended; }
  std::uint64_t parts() const { return parts_; }

 private:
  enum class State { preamble, headers, counted_data, searched_data, after_data, ended, failed };
  enum class Step { again, need_more };
  // What a line's beginning is: no delimiter, perhaps one when more is read, one, or the end mark.
  enum class Mark { none, unclear, next, last };
  struct Match {
    Mark mark;
    std::size_t length;  // of the whole line, with its end
  };

  Result<Step> step();
  Result<Step> read_preamble();
  Result<Step> read_headers();
  Result<Step> begin_part(std::string_view head);
  Result<Step> read_counted_data();
  Result<Step> read_searched_data();
  Result<Step> read_after_data();
  Result<Step> end_part();
  Result<void> pass_on(std::size_t count);
  Match match(std::string_view line) const;
  Step follow(const Match& match);
  void settle_dashes(std::string_view line);
  std::string_view rest() const { return std::string_view(buffer_).substr(at_); }

  std::string delimiter_;  // "--" boundary
  std::string undashed_;   // the boundary alone where it begins with "--" itself and the spelling is not known yet
  PartSink& sink_;
  MultipartLimits limits_;
  State state_ = State::preamble;
  std::string buffer_;           // what is not understood yet: never longer than a limit and one piece
  std::size_t at_ = 0;           // up to here it is
  std::uint64_t skipped_ = 0;    // bytes of the preamble
  bool at_line_begin_ = true;    // in the preamble
  std::uint64_t left_ = 0;       // bytes of a counted part still to come
  std::uint64_t passed_on_ = 0;  // bytes of the present part
  std::uint64_t parts_ = 0;      // that have begun
};

}  // namespace hw::http
