#pragma once
// A body that somebody writes while it is sent, whatever its format: the server takes what there is, sends it as
// chunks, and takes again when it has been sent, so that a slow reader holds back the writer.

#include <functional>
#include <string>

namespace hw::http {

// The server calls from its own thread: nothing here may block.
class ByteStream {
 public:
  virtual ~ByteStream() = default;

  // The next piece; empty when nothing waits now.
  virtual std::string take() = 0;
  // True once nothing more will come: the body ends after what still can be taken.
  virtual bool closed() const = 0;
  // `wake` is to be called, from any thread, when something waits (or the stream closed) that was not there at the last
  // take(), at once if it already does. An empty function ends it; after the return no call is under way.
  virtual void on_wake(std::function<void()> wake) = 0;
};

}  // namespace hw::http
