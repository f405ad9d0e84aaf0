#pragma once
// Reads one request after another from the bytes of a connection, without I/O. Holds no more than the limits and one
// piece.

#include <cstddef>
#include <memory>
#include <string>

#include "libs/http/head_check.h"
#include "libs/http/message.h"

namespace hw::http {

// Requests whose target begins so may have larger bodies than others. Empty: none may.
struct LargeBodies {
  std::string target_begin;  // "/api/files/"
  std::size_t bytes_max = 0;
};

struct RequestLimits {
  std::size_t request_line_bytes_max;
  std::size_t head_bytes_max;
  std::size_t body_bytes_max;
  LargeBodies large_bodies = {};
};

class RequestReader {
 public:
  enum class State { head, body, done, refused };

  explicit RequestReader(const RequestLimits& limits);
  ~RequestReader();

  // Takes what belongs to this request from the front of `bytes`; once done, the rest belongs to the next one.
  State feed(std::string& bytes);

  // In state body: the target is one that may have a larger body than others.
  bool may_be_large() const { return may_be_large_; }
  // In state body: the request without its body.
  Request head() const;
  // In state body: the client waits for "100 Continue" before it sends the body.
  bool wants_continue() const;
  // When done: whether another request may follow on this connection.
  bool keep_alive() const;
  // When done: the request, once.
  Request take();
  // When refused.
  const Refusal& refusal() const { return refusal_; }

 private:
  class Parser;
  State feed_head(std::string& bytes);
  State feed_body(std::string& bytes);
  State refuse_head(std::string_view bytes);
  void limit_body(std::string_view head);
  State read_target();
  State give_up(Refusal refusal);

  RequestLimits limits_;
  State state_ = State::head;
  bool may_be_large_ = false;
  Refusal refusal_{};
  std::unique_ptr<Parser> parser_;
  std::size_t left_ = 0;  // bytes of the body that the parser gave back
};

}  // namespace hw::http
