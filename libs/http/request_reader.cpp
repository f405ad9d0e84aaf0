#include "libs/http/request_reader.h"

#include <boost/beast/http/basic_parser.hpp>
#include <fmt/format.h>

#include "libs/http/parsing.h"
#include "libs/http/url.h"
#include "libs/values/assert.h"

namespace hw::http {
namespace {

namespace beast = boost::beast;
using ErrorCodeOfBeast = beast::error_code;

// "http://host/path" as a proxy would send it: what counts is the path.
std::string_view without_authority(std::string_view target) {
  for (std::string_view scheme : {"http://", "https://"}) {
    if (!same_name(target.substr(0, scheme.size()), scheme)) continue;
    const auto slash = target.find('/', scheme.size());
    return slash == std::string_view::npos ? "/" : target.substr(slash);
  }
  return target;
}

}  // namespace

// Beast's parser fills our Request directly. Fields after the body (trailers) are left out: nobody may set a header
// there.
class RequestReader::Parser : public beast::http::basic_parser<true> {
 public:
  Request request;
  bool head_done = false;
  bool is_http_1_1 = false;

 private:
  void on_request_impl(beast::http::verb, beast::string_view method, beast::string_view target, int version,
                       ErrorCodeOfBeast&) override {
    is_http_1_1 = version == 11;
    request.method = view(method);
    request.target = view(target);
  }
  void on_response_impl(int, beast::string_view, int, ErrorCodeOfBeast&) override {}
  void on_field_impl(beast::http::field, beast::string_view name, beast::string_view value,
                     ErrorCodeOfBeast&) override {
    if (!head_done) request.headers.add(std::string(view(name)), std::string(view(value)));
  }
  void on_header_impl(ErrorCodeOfBeast&) override { head_done = true; }
  void on_body_init_impl(const boost::optional<std::uint64_t>&, ErrorCodeOfBeast&) override {}
  std::size_t on_body_impl(beast::string_view piece, ErrorCodeOfBeast&) override {
    request.body += view(piece);
    return piece.size();
  }
  void on_chunk_header_impl(std::uint64_t, beast::string_view, ErrorCodeOfBeast&) override {}
  std::size_t on_chunk_body_impl(std::uint64_t, beast::string_view piece, ErrorCodeOfBeast&) override {
    request.body += view(piece);
    return piece.size();
  }
  void on_finish_impl(ErrorCodeOfBeast&) override {}
};

RequestReader::RequestReader(const RequestLimits& limits) : limits_(limits), parser_(std::make_unique<Parser>()) {
  parser_->header_limit(static_cast<std::uint32_t>(limits.head_bytes_max + chunk_line_bytes_max));
}

RequestReader::~RequestReader() = default;

RequestReader::State RequestReader::feed(std::string& bytes) {
  if (state_ == State::head) feed_head(bytes);
  if (state_ == State::body) feed_body(bytes);
  return state_;
}

RequestReader::State RequestReader::give_up(Refusal refusal) {
  refusal_ = std::move(refusal);
  return state_ = State::refused;
}

// What can be said of a head whose end has not come yet.
RequestReader::State RequestReader::refuse_head(std::string_view bytes) {
  const auto line_end = bytes.find('\n');
  if (line_end != std::string_view::npos && (line_end == 0 || bytes[line_end - 1] != '\r')) {
    return give_up({400, "lines end in CR LF"});
  }
  if (std::min(line_end, bytes.size()) > limits_.request_line_bytes_max) {
    return give_up({414, fmt::format("the request line is longer than {} bytes", limits_.request_line_bytes_max)});
  }
  if (bytes.size() > limits_.head_bytes_max) {
    return give_up({431, fmt::format("the request's head is longer than {} bytes", limits_.head_bytes_max)});
  }
  return state_;
}

void RequestReader::limit_body(std::string_view head) {
  const LargeBodies& large = limits_.large_bodies;
  const auto target = head.substr(std::min(head.find(' ') + 1, head.size()));
  may_be_large_ = !large.target_begin.empty() && target.starts_with(large.target_begin);
  if (may_be_large_) limits_.body_bytes_max = large.bytes_max;
  parser_->body_limit(limits_.body_bytes_max);
}

RequestReader::State RequestReader::feed_head(std::string& bytes) {
  while (bytes.starts_with("\r\n"))
    bytes.erase(0, 2);  // RFC 9112 section 2.2: empty lines before a request are skipped
  const auto end = bytes.find("\r\n\r\n");
  const std::string_view head = std::string_view(bytes).substr(0, end == std::string::npos ? end : end + 4);
  if (refuse_head(head) == State::refused || end == std::string::npos) return state_;
  if (auto refusal = check_head(head)) return give_up(std::move(*refusal));
  limit_body(head);
  ErrorCodeOfBeast error;
  const std::size_t taken = parser_->put(boost::asio::buffer(head.data(), head.size()), error);
  if (error == beast::http::error::body_limit) {
    return give_up({413, fmt::format("the body may have {} bytes at most", limits_.body_bytes_max)});
  }
  if (error) return give_up({400, fmt::format("the request's head is not HTTP: {}", error.message())});
  HW_ASSERT(taken == end + 4, "a whole head is taken as a whole");
  bytes.erase(0, taken);
  return read_target();
}

RequestReader::State RequestReader::read_target() {
  Request& request = parser_->request;
  const std::string_view target = without_authority(request.target);
  const auto question = std::min(target.find('?'), target.size());
  auto path = target == "*" ? Result<std::string>("*") : parse_path(target.substr(0, question));
  auto query = parse_query(target.substr(std::min(question + 1, target.size())));
  if (!path) return give_up({400, path.error().message});
  if (!query) return give_up({400, query.error().message});
  request.path = std::move(*path);
  request.query = std::move(*query);
  const auto expect = request.headers.find("Expect");
  if (expect && !same_name(*expect, "100-continue"))
    return give_up({417, "the only Expect that is taken is 100-continue"});
  return state_ = parser_->is_done() ? State::done : State::body;
}

RequestReader::State RequestReader::feed_body(std::string& bytes) {
  if (left_ > 0 && is_short_of_an_end(bytes)) return state_;
  std::size_t at = 0;
  ErrorCodeOfBeast error;
  while (at < bytes.size() && !error && !parser_->is_done()) {
    at += parser_->put(boost::asio::buffer(bytes.data() + at, bytes.size() - at), error);
  }
  bytes.erase(0, at);
  left_ = bytes.size();
  if (parser_->is_done()) return state_ = State::done;
  if (error == beast::http::error::need_more && bytes.size() <= chunk_line_bytes_max) return state_;
  if (error == beast::http::error::body_limit) {
    return give_up({413, fmt::format("the body may have {} bytes at most", limits_.body_bytes_max)});
  }
  if (error) return give_up({400, fmt::format("the body's chunks are wrong: {}", error.message())});
  return state_;
}

Request RequestReader::head() const {
  Request head = parser_->request;
  head.body.clear();
  return head;
}

bool RequestReader::wants_continue() const {
  return state_ == State::body && parser_->request.body.empty() && parser_->request.headers.find("Expect").has_value();
}

bool RequestReader::keep_alive() const { return parser_->keep_alive() && parser_->is_http_1_1; }

Request RequestReader::take() { return std::move(parser_->request); }

}  // namespace hw::http
