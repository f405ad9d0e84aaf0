#include "libs/http/recording.h"

#include <algorithm>
#include <optional>

#include "libs/http/response_reader.h"

namespace hw::http {
namespace {

constexpr std::string_view status_line_begin = "HTTP/";
constexpr std::size_t first_line_bytes_max = 300;
constexpr std::size_t recorded_head_bytes_max = 64 * 1024;

bool is_hex(char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F'); }

// "1a2f" CRLF or "1a2f;name=value" CRLF: how a body begins that is still in chunks.
bool begins_with_chunk(std::string_view body) {
  const auto end = std::find_if_not(body.begin(), body.end(), is_hex);
  return end != body.begin() && end != body.end() && (*end == '\r' || *end == ';');
}

std::string_view first_line_of(std::string_view text) {
  std::string_view line = text.substr(0, text.find('\n'));
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

}  // namespace

// The stages: bytes are held until it is clear what they are; then they go through `response` (where there is a head)
// to `multipart`, or as one part straight to the sink.
struct RecordingReader::Parts {
  PartSink& sink;
  MultipartLimits limits;
  std::string held;
  bool decided = false;
  std::optional<ResponseReader> response;
  std::optional<MultipartReader> multipart;
  std::uint64_t single_bytes = 0;

  Result<void> decide(bool is_last);
  Result<void> decide_by_head(std::size_t head_end);
  Result<void> begin_body(const Headers& headers);
  Result<void> begin_bare_body(bool is_last);
  Result<void> pass(std::string_view piece);
  Result<void> pass_body(std::string_view piece);
};

RecordingReader::RecordingReader(PartSink& sink, MultipartLimits limits)
    : parts_(new Parts{sink, limits, {}, false, {}, {}, 0}) {}

RecordingReader::~RecordingReader() = default;

Result<void> RecordingReader::feed(std::string_view piece) {
  if (parts_->decided) return parts_->pass(piece);
  parts_->held += piece;
  return parts_->decide(false);
}

Result<void> RecordingReader::finish() {
  if (!parts_->decided) {
    if (auto decided = parts_->decide(true); !decided) return decided;
  }
  if (parts_->response) {
    if (auto whole = parts_->response->finish(); !whole) return whole;
  }
  return parts_->multipart ? parts_->multipart->finish() : parts_->sink.end();
}

Result<void> RecordingReader::Parts::decide(bool is_last) {
  const std::string_view text = held;
  const std::string_view begin = text.substr(0, status_line_begin.size());
  if (begin != status_line_begin) {
    const bool may_become = !is_last && status_line_begin.starts_with(begin);
    return may_become ? Result<void>() : begin_bare_body(is_last);
  }
  const auto end = text.find("\r\n\r\n");
  // The first line of the body is needed as well: it shows whether the chunks are still there.
  const bool is_clear = end != std::string_view::npos && (text.find('\n', end + 4) != std::string_view::npos ||
                                                          text.size() > end + first_line_bytes_max);
  if (is_clear || (is_last && end != std::string_view::npos)) return decide_by_head(end + 4);
  if (is_last) return refuse(ErrorCode::peer_misbehaved, "the recording ends within its HTTP head");
  if (text.size() <= recorded_head_bytes_max) return {};
  return refuse(ErrorCode::too_large, "the recording's HTTP head is longer than {} bytes", recorded_head_bytes_max);
}

// Recording programs keep the head's "Transfer-Encoding: chunked" and the length but take the chunks away: then the
// body is simply what follows.
Result<void> RecordingReader::Parts::decide_by_head(std::size_t head_end) {
  decided = true;
  const auto on_head = [this](int status, const Headers& headers) -> Result<void> {
    if (status != 200) return refuse(ErrorCode::peer_misbehaved, "the recorded answer has status {}, not 200", status);
    return begin_body(headers);
  };
  response.emplace(on_head, [this](std::string_view piece) { return pass_body(piece); });
  std::string bytes = std::move(held);
  if (!begins_with_chunk(std::string_view(bytes).substr(head_end))) {
    std::string head;
    for (std::size_t at = 0; at < head_end; at = bytes.find('\n', at) + 1) {
      const std::string_view line = std::string_view(bytes).substr(at, bytes.find('\n', at) + 1 - at);
      if (!same_name(line.substr(0, 18), "Transfer-Encoding:")) head += line;
    }
    bytes.replace(0, head_end, head);
  }
  return pass(bytes);
}

Result<void> RecordingReader::Parts::begin_body(const Headers& headers) {
  const std::string_view type = headers.find("Content-Type").value_or("");
  if (!same_name(type.substr(0, 10), "multipart/")) return sink.begin(headers);
  auto boundary = parse_boundary(type);
  if (!boundary) return refuse(boundary.error());
  multipart.emplace(std::move(*boundary), sink, limits);
  return {};
}

// Without a head: "--boundary" in the first line that is not empty, or a single document.
Result<void> RecordingReader::Parts::begin_bare_body(bool is_last) {
  const std::string_view text = std::string_view(held).substr(std::min(held.find_first_not_of("\r\n"), held.size()));
  const bool is_multipart = text.starts_with("--");
  const bool is_clear = is_last || text.find('\n') != std::string_view::npos || text.size() > first_line_bytes_max ||
                        (text.size() >= 2 && !is_multipart);
  if (!is_clear) return {};
  if (text.empty()) return refuse(ErrorCode::peer_misbehaved, "the recording is empty");
  decided = true;
  if (!is_multipart) {
    if (auto begun = sink.begin({}); !begun) return begun;
  } else {
    const std::string_view line = first_line_of(text);
    if (line.size() < 3 || line.size() > first_line_bytes_max) {
      return refuse(ErrorCode::peer_misbehaved, "the recording's first line is no boundary");
    }
    multipart.emplace(std::string(line.substr(2)), sink, limits);
  }
  return pass(std::exchange(held, {}));
}

Result<void> RecordingReader::Parts::pass(std::string_view piece) {
  return response ? response->feed(piece) : pass_body(piece);
}

Result<void> RecordingReader::Parts::pass_body(std::string_view piece) {
  if (multipart) return multipart->feed(piece);
  single_bytes += piece.size();
  if (single_bytes > limits.part_bytes_max) {
    return refuse(ErrorCode::too_large, "the recorded document is longer than {} bytes", limits.part_bytes_max);
  }
  return sink.data(piece);
}

}  // namespace hw::http
