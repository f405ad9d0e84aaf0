#pragma once
// Reads multipart bodies (RFC 2046; "multipart/x-mixed-replace") piece by piece, without I/O. Grammar as read:
//
//   body     = [preamble] 1*( delimiter part ) [ "--" boundary "--" [CRLF epilogue] ]
//   delimiter= "--" boundary *blank CRLF
//   part     = *( name ":" value CRLF ) CRLF data [CRLF]
//
// A part with Content-length (any letter case) has exactly that many bytes, whatever they are; one without ends before
// the next CRLF "--" boundary. Bare LF is taken for CRLF everywhere but in front of a boundary that is searched for. A
// live stream has no end mark: it may end after any whole part.

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
  std::size_t part_header_bytes_max = 16 * 1024;
  std::uint64_t part_bytes_max = 64 * 1024 * 1024;
  std::size_t preamble_bytes_max = 64 * 1024;
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
  enum class State { preamble, delimiter_tail, headers, counted_data, searched_data, after_data, ended, failed };
  enum class Step { again, need_more };
  Result<Step> step();
  Result<Step> read_preamble();
  Result<Step> read_delimiter_tail();
  Result<Step> read_headers();
  Result<Step> read_counted_data();
  Result<Step> read_searched_data();
  Result<Step> read_after_data();
  Result<Step> begin_part(std::string_view head);
  Result<void> pass_on(std::size_t count);
  void drop(std::size_t count) { at_ += count; }
  std::string_view rest() const { return std::string_view(buffer_).substr(at_); }

  std::string delimiter_;  // "--" boundary
  PartSink& sink_;
  MultipartLimits limits_;
  State state_ = State::preamble;
  std::string buffer_;  // what is not yet understood: never longer than a limit plus one piece
  std::size_t at_ = 0;
  std::uint64_t left_ = 0;  // bytes of the present part still to come (counted) or read so far (searched)
  std::uint64_t parts_ = 0;
  std::uint64_t consumed_ = 0;  // of the whole body, for messages
};

}  // namespace hw::http
