#include "fuzz/failing_memory.h"

#include <cerrno>
#include <cstddef>

// The C library's own, under the names by which it lets programs put others in their place (glibc manual, "Replacing
// malloc").
extern "C" {
void* __libc_malloc(std::size_t bytes);
void* __libc_calloc(std::size_t count, std::size_t bytes);
void* __libc_realloc(void* piece, std::size_t bytes);
void* __libc_memalign(std::size_t alignment, std::size_t bytes);
void __libc_free(void* piece);
}

namespace hw::fuzz {
namespace {

struct Watch {
  bool is_on = false;
  std::uint64_t requests = 0;
  std::uint64_t fails_at = 0;
  RunsOut how = RunsOut::once;
  std::int64_t held = 0;
};
// Read by malloc itself: it must not need memory.
thread_local constinit Watch watch __attribute__((tls_model("initial-exec")));

bool is_refused() {
  if (!watch.is_on) return false;
  ++watch.requests;
  if (watch.fails_at == 0) return false;
  return watch.how == RunsOut::once ? watch.requests == watch.fails_at : watch.requests >= watch.fails_at;
}

template <class Grant>
void* granted(Grant grant) {
  if (is_refused()) {
    errno = ENOMEM;
    return nullptr;
  }
  void* piece = grant();
  if (watch.is_on && piece != nullptr) ++watch.held;
  return piece;
}

}  // namespace

FailingMemory::FailingMemory(std::uint64_t fails_at, RunsOut how) {
  watch.requests = 0;
  watch.fails_at = fails_at;
  watch.how = how;
  watch.is_on = true;
}
FailingMemory::~FailingMemory() { watch.is_on = false; }
std::uint64_t FailingMemory::requests() const { return watch.requests; }
std::int64_t pieces_held() { return watch.held; }

}  // namespace hw::fuzz

extern "C" {

void* malloc(std::size_t bytes) {
  return hw::fuzz::granted([&] { return __libc_malloc(bytes); });
}
void* calloc(std::size_t count, std::size_t bytes) {
  return hw::fuzz::granted([&] { return __libc_calloc(count, bytes); });
}
void* memalign(std::size_t alignment, std::size_t bytes) {
  return hw::fuzz::granted([&] { return __libc_memalign(alignment, bytes); });
}
void* aligned_alloc(std::size_t alignment, std::size_t bytes) { return memalign(alignment, bytes); }
int posix_memalign(void** piece, std::size_t alignment, std::size_t bytes) {
  *piece = memalign(alignment, bytes);
  return *piece == nullptr ? ENOMEM : 0;
}
void* realloc(void* piece, std::size_t bytes) {
  if (piece == nullptr) return malloc(bytes);
  if (hw::fuzz::is_refused()) {
    errno = ENOMEM;
    return nullptr;
  }
  return __libc_realloc(piece, bytes);
}
void free(void* piece) {
  if (hw::fuzz::watch.is_on && piece != nullptr) --hw::fuzz::watch.held;
  __libc_free(piece);
}
}
