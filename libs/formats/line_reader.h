#pragma once
// Text line by line, without a copy per line: a line is a view into the block it was read in.

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <optional>
#include <string_view>
#include <vector>

#include "libs/formats/byte_source.h"

namespace hw::formats {

inline constexpr std::size_t line_bytes_max_usual = 1 << 20;

//   LineReader lines(*source);
//   for (std::string_view line; lines.next(line);) ...
//   if (auto read = lines.outcome(); !read) return refuse(read.error());
class LineReader {
 public:
  // The source must outlive the reader.
  explicit LineReader(ByteSource& source, std::size_t line_bytes_max = line_bytes_max_usual);
  // Over text in memory, which is never copied and must outlive the lines.
  explicit LineReader(std::string_view text, std::size_t line_bytes_max = line_bytes_max_usual);

  // The next line without its LF or CRLF, valid until the next call (over memory: as long as the text). The last line
  // needs no ending. False at the end and on an error; outcome() tells which.
  bool next(std::string_view& line) {
    const void* found = begin_ == end_ ? nullptr : std::memchr(begin_, '\n', static_cast<std::size_t>(end_ - begin_));
    if (found == nullptr) return next_across_blocks(line);
    return take(line, static_cast<const char*>(found), 1);
  }

  // Empty while all is well. Errors: too_large for a line beyond the limit (names source and line), or the source's
  // own.
  Result<void> outcome() const;
  // The number of the line that next() gave last, from 1.
  std::uint64_t line_number() const { return line_number_; }

 private:
  bool take(std::string_view& line, const char* line_end, std::size_t ending_bytes);
  bool next_across_blocks(std::string_view& line);
  bool read_more();
  bool fail_too_long();

  ByteSource* source_ = nullptr;  // null over memory
  std::size_t line_bytes_max_;
  std::vector<char> block_;
  const char* begin_ = nullptr;  // what is read but not yet given
  const char* end_ = nullptr;
  std::uint64_t line_number_ = 0;
  std::optional<Error> error_;
};

inline bool LineReader::take(std::string_view& line, const char* line_end, std::size_t ending_bytes) {
  const char* next_begin = line_end + ending_bytes;
  auto length = static_cast<std::size_t>(line_end - begin_);
  if (length > line_bytes_max_) return next_across_blocks(line);
  if (length > 0 && ending_bytes > 0 && line_end[-1] == '\r') --length;
  line = {begin_, length};
  begin_ = next_begin;
  ++line_number_;
  return true;
}

}  // namespace hw::formats
