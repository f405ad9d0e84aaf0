#pragma once
// Reads one HTTP response piece by piece, without I/O, and passes its body on as it comes. Only the head is held.

#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "libs/http/headers.h"
#include "libs/values/result.h"

namespace hw::http {

class ResponseReader {
 public:
  using OnHead = std::function<Result<void>(int status, const Headers& headers)>;
  using OnData = std::function<Result<void>(std::string_view piece)>;

  ResponseReader(OnHead on_head, OnData on_data);
  ~ResponseReader();

  // Errors: peer_misbehaved (not HTTP, bad chunks), too_large (the head), or the callbacks' own.
  Result<void> feed(std::string_view piece);
  // The line was closed: refuses (peer_misbehaved) where the response is not whole.
  Result<void> finish();
  // The whole response has been read; what follows is ignored.
  bool done() const;

 private:
  class Parser;

  OnHead on_head_;
  OnData on_data_;
  std::unique_ptr<Parser> parser_;
  std::string waiting_;
  int interim_ = 0;  // responses 1xx so far
};

}  // namespace hw::http
