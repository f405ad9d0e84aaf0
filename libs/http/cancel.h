#pragma once
// Lets one thread end what another one waits for.

#include <memory>

namespace hw::http {

// Copies are the same token. cancel() is final and may come before, during or after the call that it ends.
class CancelToken {
 public:
  CancelToken();
  void cancel();
  bool cancelled() const;

 private:
  friend class Line;
  // Readable (in the sense of poll) once cancelled.
  int descriptor() const;
  struct State;
  std::shared_ptr<State> state_;
};

}  // namespace hw::http
