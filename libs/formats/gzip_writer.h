#pragma once
// gzip (RFC 1952) as bytes come: what open_file() unpacks. Nothing of time or place is in it, so that the same bytes
// give the same gzip.

#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "libs/values/result.h"

struct z_stream_s;

namespace hw::formats {

class GzipWriter {
 public:
  // Takes what is packed, piece by piece. What it refuses, add() and end() refuse.
  using Take = std::function<Result<void>(std::string_view)>;

  explicit GzipWriter(Take take);
  Result<void> add(std::string_view bytes);
  // Once, after the last piece.
  Result<void> end();

 private:
  struct Close {
    void operator()(z_stream_s* stream) const;
  };
  Result<void> pack(std::string_view bytes, int flush);

  Take take_;
  std::unique_ptr<z_stream_s, Close> stream_;
  std::string out_;
};

}  // namespace hw::formats
