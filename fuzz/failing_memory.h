#pragma once
// Memory that runs out when a test says so: this program's malloc and its like, which new and all libraries use, count
// what one thread asks for and refuse what it is told to refuse.

#include <cstdint>

namespace hw::fuzz {

enum class RunsOut {
  once,      // one request is refused, the next ones are granted
  for_good,  // that one and all that follow are
};

// While it is there, this thread's requests are counted, from 1, and those from `fails_at` on refused (0: none is). One
// at a time in a thread.
class FailingMemory {
 public:
  FailingMemory(std::uint64_t fails_at, RunsOut how);
  ~FailingMemory();
  FailingMemory(const FailingMemory&) = delete;
  FailingMemory& operator=(const FailingMemory&) = delete;

  std::uint64_t requests() const;
};

// What this thread has been granted and not given back, in pieces, counted only under a FailingMemory.
std::int64_t pieces_held();

}  // namespace hw::fuzz
