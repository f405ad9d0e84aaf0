#include "libs/http/response_reader.h"

#include <optional>

#include <boost/beast/http/basic_parser.hpp>

#include "libs/http/parsing.h"

namespace hw::http {
namespace {

namespace beast = boost::beast;
using ErrorCodeOfBeast = beast::error_code;

constexpr std::uint32_t answer_head_bytes_max = 64 * 1024;
constexpr int interim_max = 8;

}  // namespace

// Passes on what Beast's parser finds. The first refusal of a callback is kept and stops the parser.
class ResponseReader::Parser : public beast::http::basic_parser<false> {
 public:
  explicit Parser(const ResponseReader& reader) : reader_(reader) {
    header_limit(answer_head_bytes_max);
    body_limit(boost::none);
  }
  bool is_interim() const { return status_ / 100 == 1; }
  std::optional<Error> refusal;

 private:
  void on_request_impl(beast::http::verb, beast::string_view, beast::string_view, int, ErrorCodeOfBeast&) override {}
  void on_response_impl(int status, beast::string_view, int, ErrorCodeOfBeast& error) override {
    status_ = status;
    if (status < 100) error = beast::http::error::bad_status;  // RFC 9110, section 15
  }
  void on_field_impl(beast::http::field, beast::string_view name, beast::string_view value,
                     ErrorCodeOfBeast&) override {
    if (!is_header_done()) headers_.add(std::string(view(name)), std::string(view(value)));
  }
  void on_header_impl(ErrorCodeOfBeast& error) override {
    if (!is_interim()) keep(reader_.on_head_(status_, headers_), error);
  }
  void on_body_init_impl(const boost::optional<std::uint64_t>&, ErrorCodeOfBeast&) override {}
  std::size_t on_body_impl(beast::string_view piece, ErrorCodeOfBeast& error) override {
    keep(reader_.on_data_(view(piece)), error);
    return piece.size();
  }
  void on_chunk_header_impl(std::uint64_t, beast::string_view, ErrorCodeOfBeast&) override {}
  std::size_t on_chunk_body_impl(std::uint64_t, beast::string_view piece, ErrorCodeOfBeast& error) override {
    if (!refusal) keep(reader_.on_data_(view(piece)), error);
    return piece.size();
  }
  void on_finish_impl(ErrorCodeOfBeast&) override {}

  void keep(Result<void> passed, ErrorCodeOfBeast& error) {
    if (passed) return;
    refusal = std::move(passed.error());
    error = beast::http::error::end_of_stream;
  }

  const ResponseReader& reader_;
  int status_ = 0;
  Headers headers_;
};

ResponseReader::ResponseReader(OnHead on_head, OnData on_data)
    : on_head_(std::move(on_head)), on_data_(std::move(on_data)), parser_(std::make_unique<Parser>(*this)) {}

ResponseReader::~ResponseReader() = default;

bool ResponseReader::done() const { return parser_->is_done() && !parser_->is_interim(); }

Result<void> ResponseReader::feed(std::string_view piece) {
  const bool has_left = !waiting_.empty();
  waiting_ += piece;
  if (has_left && is_short_of_an_end(waiting_)) return {};
  std::size_t at = 0;
  ErrorCodeOfBeast error;
  while (at < waiting_.size() && !error && !parser_->refusal && !done()) {
    at += parser_->put(boost::asio::buffer(waiting_.data() + at, waiting_.size() - at), error);
    if (!parser_->is_done() || !parser_->is_interim()) continue;
    if (++interim_ > interim_max) {
      return refuse(ErrorCode::peer_misbehaved, "the answer does not come: more than {} interim ones", interim_max);
    }
    parser_ = std::make_unique<Parser>(*this);
  }
  waiting_.erase(0, at);
  if (parser_->refusal) return refuse(*parser_->refusal);
  if (error && error != beast::http::error::need_more) {
    const auto code = error == beast::http::error::header_limit ? ErrorCode::too_large : ErrorCode::peer_misbehaved;
    return refuse(code, "the answer is not HTTP: {}", error.message());
  }
  const bool in_head = !parser_->is_header_done();
  if (!in_head && !done() && waiting_.size() > chunk_line_bytes_max) {
    return refuse(ErrorCode::peer_misbehaved, "the answer's chunks are wrong: a chunk's size line does not end");
  }
  return {};
}

Result<void> ResponseReader::finish() {
  if (done()) return {};
  if (!parser_->got_some()) return refuse(ErrorCode::peer_misbehaved, "the line was closed without an answer");
  if (!parser_->is_header_done()) return refuse(ErrorCode::peer_misbehaved, "the line was closed within the head");
  ErrorCodeOfBeast error;
  parser_->put_eof(error);
  if (!error) return {};
  const auto left = parser_->content_length_remaining();
  if (!left) return refuse(ErrorCode::peer_misbehaved, "the line was closed before the last chunk of the body");
  return refuse(ErrorCode::peer_misbehaved, "the line was closed {} bytes before the end of the body", *left);
}

}  // namespace hw::http
