#pragma once
// Reads a recorded HTTP response from a file's bytes: with or without its status line and headers, chunked or not, a
// multipart body or a single document (which is then one part). Without headers the boundary is taken from the first
// line.

#include <memory>
#include <string_view>

#include "libs/http/multipart.h"

namespace hw::http {

class RecordingReader {
 public:
  explicit RecordingReader(PartSink& sink, MultipartLimits limits = {});
  ~RecordingReader();

  // Errors as MultipartReader; a recorded status other than 200 is refused (peer_misbehaved).
  Result<void> feed(std::string_view piece);
  // The file has ended. A recording that was broken off within a part is refused; all whole parts have been passed on.
  Result<void> finish();

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace hw::http
