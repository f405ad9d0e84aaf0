#include "libs/http/cancel.h"

#include <cerrno>
#include <cstdint>
#include <system_error>

#include <poll.h>
#include <sys/eventfd.h>
#include <unistd.h>

#include "libs/values/assert.h"

namespace hw::http {

struct CancelToken::State {
  int descriptor = ::eventfd(0, EFD_CLOEXEC | EFD_NONBLOCK);
  State() {
    if (descriptor < 0)
      throw std::system_error(errno, std::generic_category(), "no descriptor is left for a cancel token");
  }
  State(const State&) = delete;
  State& operator=(const State&) = delete;
  ~State() { ::close(descriptor); }
};

CancelToken::CancelToken() : state_(std::make_shared<State>()) {}

void CancelToken::cancel() {
  // The count is never read, so the descriptor stays readable; a full count (EAGAIN) means the same.
  const std::uint64_t one = 1;
  const auto written = ::write(state_->descriptor, &one, sizeof one);
  HW_ASSERT(written == sizeof one || errno == EAGAIN, "an eventfd takes a count");
}

bool CancelToken::cancelled() const {
  pollfd wait{state_->descriptor, POLLIN, 0};
  return ::poll(&wait, 1, 0) == 1;
}

int CancelToken::descriptor() const { return state_->descriptor; }

}  // namespace hw::http
