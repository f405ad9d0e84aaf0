#include "libs/formats/line_reader.h"

#include <algorithm>
#include <limits>

namespace hw::formats {

// Small enough to stay in a core's second-level cache between being written and being scanned.
constexpr std::size_t block_bytes_usual = 256 << 10;

LineReader::LineReader(ByteSource& source, std::size_t line_bytes_max)
    : source_(&source), line_bytes_max_(line_bytes_max), block_(block_bytes_usual) {
  begin_ = end_ = block_.data();
}

LineReader::LineReader(std::string_view text, std::size_t line_bytes_max)
    : line_bytes_max_(line_bytes_max), begin_(text.data()), end_(text.data() + text.size()) {}

// Here only when no line ending lies between begin_ and end_, or the line is too long.
bool LineReader::next_across_blocks(std::string_view& line) {
  if (error_) return false;
  for (std::size_t searched = 0;;) {
    const auto left = static_cast<std::size_t>(end_ - begin_);
    if (left > searched) {
      const void* found = std::memchr(begin_ + searched, '\n', left - searched);
      const auto length = found == nullptr ? left : static_cast<std::size_t>(static_cast<const char*>(found) - begin_);
      if (length > line_bytes_max_) return fail_too_long();
      if (found != nullptr) return take(line, static_cast<const char*>(found), 1);
      searched = left;
    }
    if (!read_more()) break;
  }
  if (error_ || begin_ == end_) return false;
  return take(line, end_, 0);
}

// Moves what is left to the front of the block, with room behind it, and fills that. False at the end or on an error.
bool LineReader::read_more() {
  if (source_ == nullptr) return false;
  const auto left = static_cast<std::size_t>(end_ - begin_);
  std::memmove(block_.data(), begin_, left);
  if (left > block_.size() / 2) block_.resize(2 * block_.size());
  const auto got = source_->read(std::span(block_).subspan(left));
  begin_ = block_.data();
  end_ = begin_ + left + got.value_or(0);
  if (!got) error_ = got.error();
  return got.value_or(0) > 0;
}

bool LineReader::fail_too_long() {
  const std::string_view name = source_ == nullptr ? std::string_view("text") : source_->name();
  error_ = Error{ErrorCode::too_large,
                 fmt::format("{}, line {}: longer than {} bytes", name, line_number_ + 1, line_bytes_max_)};
  begin_ = end_;
  return false;
}

Result<void> LineReader::outcome() const {
  if (error_) return refuse(*error_);
  return {};
}

}  // namespace hw::formats
