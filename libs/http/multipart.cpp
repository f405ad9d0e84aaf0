#include "libs/http/multipart.h"

#include <algorithm>
#include <charconv>
#include <optional>

#include "libs/http/field_lines.h"

namespace hw::http {
namespace {

constexpr std::size_t boundary_chars_max = 200;    // RFC 2046 says 70; agents are not always so modest
constexpr std::size_t delimiter_blanks_max = 100;  // after a delimiter, before its line ends

// The text up to the closing quote, backslashes taken away.
std::string unquoted(std::string_view text) {
  std::string out;
  for (std::size_t i = 1; i < text.size() && text[i] != '"'; ++i) {
    if (text[i] == '\\' && i + 1 < text.size()) ++i;
    out += text[i];
  }
  return out;
}

// The value of the parameter ";boundary=" in any letter case.
std::string boundary_parameter(std::string_view content_type) {
  constexpr std::string_view name = "boundary=";
  for (std::size_t at = content_type.find(';'); at != std::string_view::npos; at = content_type.find(';', at + 1)) {
    const auto begin = std::min(content_type.find_first_not_of(" \t", at + 1), content_type.size());
    if (!same_name(content_type.substr(begin, name.size()), name)) continue;
    const std::string_view value = content_type.substr(begin + name.size());
    if (value.starts_with('"')) return unquoted(value);
    return std::string(value.substr(0, value.find_first_of("; \t")));
  }
  return {};
}

// The part's Content-length; no value where there is none.
Result<std::optional<std::uint64_t>> content_length(const Headers& headers) {
  const auto text = headers.find("Content-Length");
  if (!text) return std::nullopt;
  std::uint64_t length = 0;
  const auto [end, error] = std::from_chars(text->data(), text->data() + text->size(), length);
  if (error != std::errc() || end != text->data() + text->size() || headers.count("Content-Length") > 1) {
    return refuse(ErrorCode::peer_misbehaved, "Content-length \"{}\" is no single number of bytes", *text);
  }
  return length;
}

bool is_line_end(std::string_view text) { return text.starts_with('\n') || text.starts_with("\r\n"); }

// What can be shown of a peer's bytes in a sentence.
std::string shown(std::string_view bytes) {
  std::string out(bytes.substr(0, 40));
  std::replace_if(
      out.begin(), out.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; }, '.');
  return out;
}

}  // namespace

Result<std::string> parse_boundary(std::string_view content_type) {
  if (!same_name(content_type.substr(0, 10), "multipart/")) {
    return refuse(ErrorCode::peer_misbehaved, "Content-Type \"{}\" is not multipart", shown(content_type));
  }
  std::string boundary = boundary_parameter(content_type);
  if (boundary.empty() || boundary.size() > boundary_chars_max) {
    return refuse(ErrorCode::peer_misbehaved, "Content-Type \"{}\" has no boundary of 1 to {} characters",
                  shown(content_type), boundary_chars_max);
  }
  return boundary;
}

MultipartReader::MultipartReader(std::string boundary, PartSink& sink, MultipartLimits limits)
    : delimiter_("--" + boundary), sink_(sink), limits_(limits) {
  if (boundary.starts_with("--")) undashed_ = std::move(boundary);
}

Result<void> MultipartReader::feed(std::string_view piece) {
  buffer_ += piece;
  for (;;) {
    auto done = step();
    if (!done) {
      state_ = State::failed;
      return refuse(parts_ == 0 ? done.error() : done.error().at(fmt::format("part {}", parts_)));
    }
    if (*done == Step::need_more) break;
  }
  buffer_.erase(0, at_);
  at_ = 0;
  return {};
}

Result<void> MultipartReader::finish() {
  const bool whole =
      state_ == State::ended || state_ == State::after_data || (state_ == State::headers && rest().empty());
  if (whole && parts_ > 0) return {};
  if (parts_ == 0) return refuse(ErrorCode::peer_misbehaved, "the body ended without any part");
  const std::string_view within = state_ == State::headers ? "the headers after it" : "it";
  return refuse(ErrorCode::peer_misbehaved, "part {}: the body ended within {}, after {} of its bytes", parts_, within,
                passed_on_);
}

Result<MultipartReader::Step> MultipartReader::step() {
  switch (state_) {
    case State::preamble:
      return read_preamble();
    case State::headers:
      return read_headers();
    case State::counted_data:
      return read_counted_data();
    case State::searched_data:
      return read_searched_data();
    case State::after_data:
      return read_after_data();
    case State::ended:
      at_ = buffer_.size();
      return Step::need_more;
    case State::failed:
      break;
  }
  return refuse(ErrorCode::peer_misbehaved, "the body was refused before");
}

// The delimiter's line ends after optional blanks; "--" makes it the end mark.
MultipartReader::Match MultipartReader::match(std::string_view line) const {
  if (line.size() < delimiter_.size()) return {delimiter_.starts_with(line) ? Mark::unclear : Mark::none, 0};
  if (!line.starts_with(delimiter_)) return {Mark::none, 0};
  const std::string_view tail = line.substr(delimiter_.size());
  if (tail.starts_with("--")) return {Mark::last, delimiter_.size() + 2};
  const auto blanks = std::min(tail.find_first_not_of(" \t"), tail.size());
  if (is_line_end(tail.substr(blanks))) return {Mark::next, line.find('\n') + 1};
  const std::string_view end = tail.substr(blanks);
  const bool unclear = end.empty() || end == "\r" || tail == "-";
  return {unclear && blanks <= delimiter_blanks_max ? Mark::unclear : Mark::none, 0};
}

MultipartReader::Step MultipartReader::follow(const Match& match) {
  at_ += match.length;
  state_ = match.mark == Mark::last ? State::ended : State::headers;
  return Step::again;
}

// Where the boundary begins with "--", the first delimiter shows whether the agent meant these to be the two dashes.
void MultipartReader::settle_dashes(std::string_view line) {
  if (undashed_.empty() || line.size() < delimiter_.size()) return;
  if (!line.starts_with(delimiter_) && line.starts_with(undashed_)) delimiter_ = undashed_;
  if (line.starts_with(delimiter_)) undashed_.clear();
}

Result<MultipartReader::Step> MultipartReader::read_preamble() {
  if (at_line_begin_) {
    settle_dashes(rest());
    const Match found = match(rest());
    const bool may_be_undashed = !undashed_.empty() && rest().size() < delimiter_.size();
    if (found.mark == Mark::next || found.mark == Mark::last) return follow(found);
    if (found.mark == Mark::unclear || may_be_undashed) return Step::need_more;
  }
  const auto line_end = rest().find('\n');
  at_line_begin_ = line_end != std::string_view::npos;
  const std::size_t skip = at_line_begin_ ? line_end + 1 : rest().size();
  at_ += skip;
  skipped_ += skip;
  if (skipped_ > limits_.part_header_bytes_max) {
    return refuse(ErrorCode::peer_misbehaved, "the first {} bytes have no line \"{}\"", skipped_, delimiter_);
  }
  return at_line_begin_ ? Step::again : Step::need_more;
}

Result<MultipartReader::Step> MultipartReader::read_headers() {
  const std::string_view text = rest();
  for (std::size_t line = 0; line <= limits_.part_header_bytes_max;) {
    if (is_line_end(text.substr(line))) {
      const std::size_t end = text.find('\n', line) + 1;
      at_ += end;
      return begin_part(text.substr(0, line));
    }
    const auto line_end = text.find('\n', line);
    if (line_end == std::string_view::npos) break;
    line = line_end + 1;
  }
  if (text.size() <= limits_.part_header_bytes_max) return Step::need_more;
  return refuse(ErrorCode::too_large, "the headers of the next part are longer than {} bytes",
                limits_.part_header_bytes_max);
}

Result<MultipartReader::Step> MultipartReader::begin_part(std::string_view head) {
  ++parts_;
  passed_on_ = 0;
  const auto headers = parse_field_lines(head);
  if (!headers) return refuse(headers.error());
  const auto length = content_length(*headers);
  if (!length) return refuse(length.error());
  left_ = length->value_or(0);
  if (left_ > limits_.part_bytes_max) {
    return refuse(ErrorCode::too_large, "it has {} bytes; at most {} are taken", left_, limits_.part_bytes_max);
  }
  state_ = *length ? State::counted_data : State::searched_data;
  if (auto begun = sink_.begin(*headers); !begun) return refuse(begun.error());
  return Step::again;
}

Result<void> MultipartReader::pass_on(std::size_t count) {
  if (count == 0) return {};
  passed_on_ += count;
  if (passed_on_ > limits_.part_bytes_max) {
    return refuse(ErrorCode::too_large, "it is longer than {} bytes", limits_.part_bytes_max);
  }
  const std::string_view piece = rest().substr(0, count);
  at_ += count;
  return sink_.data(piece);
}

Result<MultipartReader::Step> MultipartReader::end_part() {
  state_ = State::after_data;
  if (auto ended = sink_.end(); !ended) return refuse(ended.error());
  return Step::again;
}

Result<MultipartReader::Step> MultipartReader::read_counted_data() {
  const auto count = static_cast<std::size_t>(std::min<std::uint64_t>(left_, rest().size()));
  left_ -= count;
  if (auto passed = pass_on(count); !passed) return refuse(passed.error());
  return left_ == 0 ? end_part() : Step::need_more;
}

// Passes on all that cannot belong to a delimiter: up to the first line that is one, or may be one.
Result<MultipartReader::Step> MultipartReader::read_searched_data() {
  const std::string_view text = rest();
  Match found = passed_on_ == 0 ? match(text) : Match{Mark::none, 0};  // the part may be empty
  std::size_t end = 0;
  for (std::size_t from = 0; found.mark == Mark::none; from = end + 1) {
    end = text.find('\n', from);
    if (end == std::string_view::npos) break;
    found = match(text.substr(end + 1));
  }
  const bool searched_all = found.mark == Mark::none;
  if (searched_all) end = text.size();
  // The line break in front of the delimiter belongs to it.
  const bool after_return = end > 0 && text[end - 1] == '\r' && (found.mark != Mark::none || searched_all);
  if (auto passed = pass_on(after_return ? end - 1 : end); !passed) return refuse(passed.error());
  return searched_all || found.mark == Mark::unclear ? Step::need_more : end_part();
}

Result<MultipartReader::Step> MultipartReader::read_after_data() {
  while (is_line_end(rest())) at_ += rest().find('\n') + 1;
  if (rest().empty() || rest() == "\r") return Step::need_more;
  const Match found = match(rest());
  if (found.mark == Mark::unclear) return Step::need_more;
  if (found.mark != Mark::none) return follow(found);
  return refuse(ErrorCode::peer_misbehaved, "after its {} bytes stands \"{}\" and not the boundary", passed_on_,
                shown(rest()));
}

}  // namespace hw::http
